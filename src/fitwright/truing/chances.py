"""The chances of the piece once readings are in: the virtual builds, drawn from what is left unsure."""

from __future__ import annotations

from dataclasses import replace

from fitwright.mechanics.model import Floats
from fitwright.mechanics.variation import Sensitivity, Source, Variation
from fitwright.mechanics.variation.simulate import count, sample, scales
from fitwright.truing.estimate import Estimate
from fitwright.truing.model import ChanceNow

BUILDS = 20_000
SEED = 0


def conditioned(setting: Variation, estimate: Estimate, off: Floats) -> Sensitivity:
    """Outcomes as they now are: how far they probably are off (o,) [mm], and what is left of the errors."""
    matrix = setting.acting @ estimate.root
    outcomes = tuple(
        replace(outcome, nominal=outcome.nominal + float(shift))
        for outcome, shift in zip(setting.outcomes, off, strict=True)
    )
    left = tuple(Source("what is left unsure", "left", 1.0) for _ in range(matrix.shape[1]))
    return Sensitivity(outcomes, left, matrix)


def chances_now(
    setting: Variation, before: Estimate, now: Estimate, drawn: Floats, off: Floats
) -> tuple[ChanceNow, ...]:
    """Each demand's chance without the readings, about what is drawn (o,), and with them, outcomes off by (o,) [mm]."""
    questions, felt = setting.decisive
    rows = [setting.sensitivity.row(outcome.name) for outcome in felt.outcomes]
    found: list[list[float]] = []
    for estimate, shift in ((before, drawn), (now, off)):
        few = sample(conditioned(setting, estimate, shift).only(rows), BUILDS, SEED)
        tally = count(questions, scales(questions, few), few)
        found.append([passed / tally.builds for each in tally.passed for passed in each])
    named = [(rule.name, question.subject) for question in questions for rule in question.rules]
    return tuple(
        ChanceNow(name, subject, one, other, setting.limits.chance)
        for (name, subject), one, other in zip(named, *found, strict=True)
    )
