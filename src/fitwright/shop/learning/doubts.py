"""What the trials of one die do not agree on: one that none of the others explains, and a drift."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from statistics import NormalDist

from fitwright.shop.learning.springback import BendTrial, SlopePrior, fitted, row

# An outlier is one that among so many trials would turn up by chance less often than this (Bonferroni).
UNLIKELY = 0.05
LEAST = 3
"""Trials from which the others can say something of one."""
LATEST = 60
"""Trials that are looked at, the newest: older ones say little of the machine as it is."""
# Half a deviation is let pass with each trial, and five in all are a drift: one false alarm in some 465 trials
# (Montgomery, Introduction to Statistical Quality Control, cusum table for k = 0.5 and h = 5; from memory).
SLACK, LIMIT = 0.5, 5.0
LARGEST = 4.0


@dataclass(frozen=True)
class Outlier:
    """A trial (place in order, from 0) that the others do not explain: what they expect [rad] and how likely it is."""

    place: int
    got: float
    expected: float
    chance: float


@dataclass(frozen=True)
class Drift:
    """From which trial on (place in order, from 0) bends open more or, with a minus, less than before [rad]."""

    since: int
    by: float


def outliers(trials: Sequence[BendTrial], prior: SlopePrior) -> tuple[Outlier, ...]:
    """Trials that all others make unlikely, the least likely first.

    Holds for three trials and more. Source: posterior predictive p-values leaving one out, Gelman and others, Bayesian
    Data Analysis, 3rd edition, 6.3 (from memory).
    """
    first = max(len(trials) - LATEST, 0)
    return tuple(replace(one, place=one.place + first) for one in _outliers(tuple(trials[first:]), prior))


@lru_cache(maxsize=64)
def _outliers(trials: tuple[BendTrial, ...], prior: SlopePrior) -> tuple[Outlier, ...]:
    if len(trials) < LEAST:
        return ()
    found = []
    for place, trial in enumerate(trials):
        others = [*trials[:place], *trials[place + 1 :]]
        heats = [one.heat for one in trials]
        ahead = fitted(others, prior, heats).next(row(trial.asked, trial.heat, heats))
        below = ahead.below(trial.opened)
        chance = 2 * min(below, 1 - below)
        if chance * len(trials) < UNLIKELY:
            found.append(Outlier(place, trial.got, trial.asked - ahead.mean, chance))
    return tuple(sorted(found, key=lambda one: one.chance))


def surprises(trials: Sequence[BendTrial], prior: SlopePrior) -> list[float]:
    """Each trial against what those before it lead to expect, in standard deviations: positive when it opens more."""
    heats = [one.heat for one in trials]
    found = []
    for place, trial in enumerate(trials):
        ahead = fitted(trials[:place], prior, heats).next(row(trial.asked, trial.heat, heats))
        below = min(max(ahead.below(trial.opened), 1e-9), 1 - 1e-9)
        found.append(min(max(NormalDist().inv_cdf(below), -LARGEST), LARGEST))
    return found


def drift(trials: Sequence[BendTrial], prior: SlopePrior) -> Drift | None:
    """Whether later trials open more or less than earlier ones; None when nothing says so.

    The first trial is left out: it tells how wrong the prior was. A single outlier counts at most LARGEST deviations
    less the slack, and two in a row make a drift.
    Source: tabular cusum, Montgomery, Introduction to Statistical Quality Control (from memory).
    """
    first = max(len(trials) - LATEST, 0)
    found = _drift(tuple(trials[first:]), prior)
    return None if found is None else replace(found, since=found.since + first)


@lru_cache(maxsize=64)
def _drift(trials: tuple[BendTrial, ...], prior: SlopePrior) -> Drift | None:
    steps = surprises(trials, prior)
    for sign in (1, -1):
        total, since = 0.0, 1
        for place, step in enumerate(steps[1:], 1):
            total = total + sign * step - SLACK
            if total <= 0:
                total, since = 0.0, place + 1
            elif total > LIMIT and place > since:
                return Drift(since, _by(trials, prior, since))
    return None


def _by(trials: Sequence[BendTrial], prior: SlopePrior, since: int) -> float:
    heats = [one.heat for one in trials]
    before = fitted(trials[:since], prior, heats)
    more = [one.opened - before.value(row(one.asked, one.heat, heats)).mean for one in trials[since:]]
    return math.fsum(more) / len(more)
