"""From counts to chances: how likely each demand is met, what decides it, and which nominal would be best."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from fitwright.mechanics.model import Floats, Ints
from fitwright.mechanics.variation.clearance import Demand
from fitwright.mechanics.variation.model import BestNominal, Chance, Histogram, OutcomeSpread, Sensitivity, Share
from fitwright.mechanics.variation.questions import Rule
from fitwright.mechanics.variation.rock import Numbers
from fitwright.mechanics.variation.setting import Variation
from fitwright.mechanics.variation.simulate import Scale, Tally
from fitwright.mechanics.variation.spreads import spread_notes

SHOWN = 60
CHANGE_MM = 25.4


def shares(sensitivity: Sensitivity, forms: Sequence[tuple[Floats, float]]) -> tuple[Share, ...]:
    """Shares of variance by kind of error, largest first; they sum to one (nothing at all where nothing varies).

    forms: linear forms (o,) of the outcomes, and how often each is the one that decides. Where several decide in turn
    the shares of each are averaged over how often it does.
    Source: the variance of a sum of independent errors is the sum of their variances.
    """
    parts = _by_kind(sensitivity, np.array([form for form, _ in forms]))
    whole = parts.sum(axis=1, keepdims=True)
    often = np.array([often for _, often in forms])
    total = often @ np.where(whole > 0, parts / np.where(whole > 0, whole, 1.0), 0.0)
    return _named(sensitivity, total)


def _by_kind(sensitivity: Sensitivity, forms: Floats) -> Floats:
    """(f, k) variance of each form (f, o) from each kind of error, in the order of `sensitivity.kinds`."""
    kinds = np.array([source.kind for source in sensitivity.sources])
    each = (kinds[:, None] == np.array(sensitivity.kinds)).astype(np.float64)
    return np.asarray((forms @ sensitivity.matrix * sensitivity.spreads) ** 2 @ each)


def _named(sensitivity: Sensitivity, total: Floats) -> tuple[Share, ...]:
    notes, everything = spread_notes(), float(total.sum())
    pairs = zip(sensitivity.kinds, total.tolist(), strict=True)
    found = [Share(kind, notes[kind].words, part / everything) for kind, part in pairs if part > 0]
    return tuple(sorted(found, key=lambda share: -share.share))


def outcome_spreads(sensitivity: Sensitivity) -> tuple[OutcomeSpread, ...]:
    """Every outcome with its deviation and the errors it comes from."""
    by_kind = _by_kind(sensitivity, np.eye(len(sensitivity.outcomes)))
    return tuple(
        OutcomeSpread(outcome, float(spread), _named(sensitivity, row))
        for outcome, spread, row in zip(sensitivity.outcomes, sensitivity.spread, by_kind, strict=True)
    )


def chances(setting: Variation, bins: Sequence[Scale], tally: Tally, few: Numbers) -> tuple[Chance, ...]:
    """Every demand with its chance, the one with the least margin first; few: (b, o) builds that show what decides."""
    found = []
    questions, sensitivity = setting.decisive
    wanted = setting.limits.chance
    for question, scale, passed, counts in zip(questions, bins, tally.passed, tally.counts, strict=True):
        decided = shares(sensitivity, list(question.deciding(few)))
        mean, spread = _moments(scale, counts)
        for rule, good in zip(question.rules, passed, strict=True):
            share = good / tally.builds
            unsure = float(np.sqrt(share * (1 - share) / tally.builds))
            picture = _picture(scale, counts, rule)
            found.append(Chance(rule.name, question.subject, share, wanted, unsure, mean, spread, decided, picture))
    return tuple(sorted(found, key=lambda chance: chance.value))


def _moments(scale: Scale, counts: Ints) -> tuple[float, float]:
    """Mean and deviation of what was counted [mm]."""
    middles = scale.edges[:-1] + scale.width / 2
    mean = float(np.average(middles, weights=counts))
    return mean, float(np.sqrt(np.average((middles - mean) ** 2, weights=counts)))


def _picture(scale: Scale, counts: Ints, rule: Rule) -> Histogram:
    """About sixty bars over what occurred."""
    there = np.flatnonzero(counts)
    first, last = (int(there[0]), int(there[-1]) + 1) if len(there) else (0, 1)
    each = max(1, -(-(last - first) // SHOWN))
    first = max(0, first - each)
    bars = min(-(-(last - first) // each), (len(counts) - first) // each) or 1
    shown = counts[first : first + bars * each].reshape(bars, -1).sum(axis=1)
    edges = scale.edges[first : first + bars * each + 1 : each]
    return Histogram(edges, shown, rule.low, rule.high)


def best_nominals(setting: Variation, bins: Sequence[Scale], tally: Tally) -> tuple[BestNominal, ...]:
    """For each direction with a wall on both sides: the change of size with the best chance to be right.

    Right is a total gap of at least what is wanted and at most what looks loose. Nothing is said where more than an
    inch would have to change: such a piece is not meant to fill its place (common practice).
    """
    found = []
    by_subject = {question.subject: i for i, question in enumerate(setting.decisive[0])}
    for demand in setting.demands:
        if not (demand.sides[0] and demand.sides[1] and demand.subject == "across" and demand.wanted > 0):
            continue
        i = by_subject[demand.subject]
        best = _best(demand, bins[i], np.asarray(tally.counts[i]) / tally.builds)
        if best is not None:
            found.append(best)
    return tuple(found)


def _best(demand: Demand, scale: Scale, share: Floats) -> BestNominal | None:
    below = np.concatenate([[0.0], np.cumsum(share)])
    changes = np.arange(-CHANGE_MM, CHANGE_MM + 1e-9, 0.1)

    def chance(change: Floats) -> Floats:
        at = [np.interp(limit + change, scale.edges, below) for limit in (demand.wanted, demand.loose)]
        return np.asarray(at[1] - at[0])

    values = chance(changes)
    top = float(values.max())
    if top < 0.01:
        return None
    best = np.flatnonzero(values >= top - 1e-4)
    at = round(float(changes[int(best[int(np.argmin(np.abs(changes[best])))])]), 1) + 0.0
    now = float(chance(np.zeros(1))[0])
    return BestNominal(demand.subject, at, top, now, demand.wanted, demand.loose)


def by_name(found: Sequence[Chance]) -> dict[str, float]:
    """The chance of each demand; the least where several have one name."""
    result: dict[str, float] = {}
    for chance in found:
        result[chance.name] = min(chance.value, result.get(chance.name, 1.0))
    return result
