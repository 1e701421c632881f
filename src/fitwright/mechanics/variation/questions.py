"""What is demanded of the finished piece, and how each demand is judged in many builds at once."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from fitwright.mechanics.model import Bools, Floats
from fitwright.mechanics.variation.clearance import Demand
from fitwright.mechanics.variation.model import Sensitivity
from fitwright.mechanics.variation.rock import Numbers, rock

Stances = tuple[tuple[tuple[int, ...], Floats], ...]
FAR = 6.0
FLAT, SHELVES, FITS, WANTED, FILL = "stands flat", "shelves drop in", "fits", "fits as wanted", "welds fill"


@dataclass(frozen=True)
class Limits:
    """What the job allows.

    rock: the most a foot may be off the floor [mm]. chance: the least chance that each demand is to have. loosest: how
    many times the gap wanted looks too loose. shim_step: thinnest packing at hand [mm]. level_range: how far a
    levelling foot screws [mm]. fill: the widest gap that a weld is to fill [mm].
    """

    rock: float = 1.0
    chance: float = 0.95
    loosest: float = 2.0
    shim_step: float = 0.5
    level_range: float = 10.0
    fill: float = 1.5


@dataclass(frozen=True)
class Rule:
    """One demand on a question's value: between low and high [mm]. must: without it the piece is a failure."""

    name: str
    low: float | None
    high: float | None
    must: bool = True


@dataclass(frozen=True, eq=False)
class Question:
    """A number that decides, and the demands on it.

    subject: across, along, above, rock, shelves or joints. groups: rows of outcomes; the value is the sum of the
    smallest of each group, or for rock the rock of the feet in the one group. residual: what is left of a rock after
    shims ("shim") or levelling feet ("level"), "" for all of it. step: of the shims, or range of the feet [mm].
    """

    subject: str
    groups: tuple[tuple[int, ...], ...]
    rules: tuple[Rule, ...]
    stances: Stances = ()
    residual: str = ""
    step: float = 0.0

    def value(self, builds: Numbers) -> Numbers:
        """(b,) the deciding number [mm] in builds with outcomes (b, o)."""
        if not self.stances:
            return np.asarray(sum(_smallest(builds, group) for group in self.groups))
        raw = rock(builds[:, self.groups[0]], self.stances)
        if self.residual == "shim":
            return np.asarray(np.abs(raw - self.step * np.round(raw / self.step)))
        if self.residual == "level":
            return np.asarray(np.maximum(raw - self.step, 0))
        return raw

    def deciding(self, builds: Numbers) -> Iterator[tuple[Floats, float]]:
        """Linear forms (o,) of the outcomes that decide, and how often each does; the frequencies sum to one."""
        if self.stances:
            yield from self._deciding_feet(builds)
            return
        sizes = tuple(len(group) for group in self.groups)
        chosen = [builds[:, group].argmin(axis=1) for group in self.groups]
        often = np.bincount(np.ravel_multi_index(chosen, sizes), minlength=int(np.prod(sizes))) / len(builds)
        for number in np.flatnonzero(often):
            form = np.zeros(builds.shape[1])
            for group, c in zip(self.groups, np.unravel_index(number, sizes), strict=True):
                form[group[int(c)]] += 1.0
            yield form, float(often[number])

    def _deciding_feet(self, builds: Numbers) -> Iterator[tuple[Floats, float]]:
        feet = list(self.groups[0])
        forms = [over[foot] for _, over in self.stances for foot in range(len(feet)) if np.any(over[foot])]
        gaps = np.array([builds[:, feet] @ form for form in forms])
        decides = np.abs(gaps - rock(builds[:, feet], self.stances)).argmin(axis=0)
        for number, form in enumerate(forms):
            often = float((decides == number).mean())
            if often > 0:
                whole = np.zeros(builds.shape[1])
                whole[feet] = form
                yield whole, often


def _smallest(builds: Numbers, group: Sequence[int]) -> Numbers:
    """(b,) the smallest of some columns."""
    least = builds[:, group[0]]
    for column in group[1:]:
        least = np.minimum(least, builds[:, column])
    return least


def trimmed(questions: Sequence[Question], sensitivity: Sensitivity) -> tuple[tuple[Question, ...], tuple[int, ...]]:
    """The questions without outcomes that never decide, numbered anew; and the rows that those numbers stand for.

    An outcome never decides when it lies six deviations of both above the least of its group.
    """
    kept = [
        tuple(group if question.stances else _contenders(group, sensitivity) for group in question.groups)
        for question in questions
    ]
    rows = tuple(sorted({row for groups in kept for group in groups for row in group}))
    number = {row: i for i, row in enumerate(rows)}
    anew = [tuple(tuple(number[row] for row in group) for group in groups) for groups in kept]
    return tuple(replace(q, groups=groups) for q, groups in zip(questions, anew, strict=True)), rows


def _contenders(group: tuple[int, ...], sensitivity: Sensitivity) -> tuple[int, ...]:
    nominal, spread = sensitivity.nominal, sensitivity.spread
    least = min(group, key=lambda row: float(nominal[row]))
    return tuple(row for row in group if nominal[row] - nominal[least] <= FAR * (spread[row] + spread[least]))


def met(rule: Rule, value: NDArray[np.float32] | Floats) -> Bools:
    """(b,) whether each value meets a demand."""
    good = np.ones(len(value), dtype=np.bool_)
    if rule.low is not None:
        good &= value >= rule.low
    if rule.high is not None:
        good &= value <= rule.high
    return good


def room_questions(found: Sequence[Demand], row: dict[str, int]) -> Iterator[Question]:
    """One question for each direction in which the place has walls; row: the number of each outcome by its name."""
    for demand in found:
        groups = tuple(tuple(row[name] for name in side) for side in demand.sides if side)
        rules = (Rule(FITS, 0.0, None), Rule(WANTED, demand.wanted, None, must=False))
        yield Question(demand.subject, groups, rules[: 2 if demand.wanted > 0 else 1])


def usual_limits(inch: bool) -> Limits:
    """Rock to 1/32 in or 1 mm, a chance of 95 in 100, twice the gap wanted looks loose, welds fill 1/16 in or 1.5 mm.

    Common practice throughout.
    """
    return Limits(rock=25.4 / 32, fill=25.4 / 16) if inch else Limits()
