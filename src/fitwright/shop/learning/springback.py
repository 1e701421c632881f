"""Springback from trials: how far a bend opens on one die, in one section, in one heat of material."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from fitwright.shop.learning.errors import LearningError
from fitwright.shop.learning.regression import Mixture, Noise, Regression, regress

Floats = NDArray[np.float64]

# One bend to the next with one setting, and what a protractor adds (common practice), worth eight trials.
BEND_NOISE = Noise(math.radians(0.25), 8.0)
# How far the machine's own scale may be off at zero (common practice).
ZERO_SPREAD = math.radians(0.5)
# Yield stress from heat to heat of one grade, over its mean; springback goes with it (JCSS Probabilistic Model Code,
# 3.2, has 7 % for batches of structural steel, from memory; tube is formed cold besides).
HEAT_SPREAD = 0.1
SHARE = 0.9
# A law that leaves less than this of the angle cannot be bent by.
LEAST_KEPT = 0.05
# Bends that stray more than this by one setting are no springback but slips (common practice).
MOST_STRAY = math.radians(3.0)


@dataclass(frozen=True)
class BendTrial:
    """One trial in order: bent to `asked`, measured `got` [rad], in a heat ("" where it is not known)."""

    asked: float
    got: float
    heat: str = ""

    @property
    def opened(self) -> float:
        """How far it sprang back [rad]."""
        return self.asked - self.got


@dataclass(frozen=True)
class SlopePrior:
    """What is known before any trial: springback over the angle bent to, from physics, and its standard deviation."""

    slope: float
    spread: float


@dataclass(frozen=True)
class Overbend:
    """The angle to bend to and its 90 % range, and how far the bend strays with it, one deviation [rad].

    trials: it is from; heat: which it holds for, of which `same_heat` of the trials are.
    """

    command: float
    low: float
    high: float
    strays: float
    trials: int
    heat: str
    same_heat: int


@dataclass(frozen=True, eq=False)
class BendLaw:
    """What is known of one die and section in one heat, after its trials."""

    trials: tuple[BendTrial, ...]
    prior: SlopePrior
    heat: str

    @cached_property
    def heats(self) -> tuple[str, ...]:
        """Heats with trials, in order."""
        return tuple(dict.fromkeys(trial.heat for trial in self.trials))

    @cached_property
    def fit(self) -> Regression:
        """Springback on the angle bent to: a zero error, a slope, and what each heat adds to the slope."""
        return fitted(self.trials, self.prior, (*self.heats, self.heat))

    def opening(self, asked: float) -> Mixture:
        """How far the next bend to `asked` [rad] springs back."""
        return self.fit.next(self._row(asked, self.heat))

    def mean_opening(self, asked: float) -> Mixture:
        """How far bends to `asked` [rad] spring back on average."""
        return self.fit.value(self._row(asked, self.heat))

    def got(self, asked: float, share: float = SHARE) -> tuple[float, float, float]:
        """What comes of bending to `asked`: the mean, and the interval that holds a share of bends [rad]."""
        opening = self.opening(asked)
        low, high = opening.interval(share)
        return asked - opening.mean, asked - high, asked - low

    def overbend(self, angle: float) -> Overbend:
        """The angle to bend to for a wanted `angle` [rad].

        The range is of what the next bend may need, its own straying included. Raises LearningError where the trials
        contradict one another, or physics, so much that no angle follows.
        """
        if self.fit.noise > MOST_STRAY:
            raise LearningError(
                f"the trials stray by {math.degrees(self.fit.noise):.1f}°: look for wrong ones, and leave them out"
            )
        zero = self.mean_opening(0.0).mean
        slope = self.mean_opening(1.0).mean - zero
        kept = 1 - slope
        command = (angle + zero) / kept if kept > LEAST_KEPT else math.inf
        if not 0 < command < 2 * angle + ZERO_SPREAD:
            raise LearningError(
                f"by the trials a bend of {math.degrees(angle):.1f}° keeps {100 * kept:.0f} % of its angle: "
                "look for a wrong trial"
            )
        low, high = (one / kept for one in self.opening(command).interval(SHARE))
        middle = self.opening(command).mean / kept
        same = sum(trial.heat == self.heat for trial in self.trials)
        return Overbend(
            command, command + low - middle, command + high - middle, self.opening(command).deviation,
            len(self.trials), self.heat, same,
        )  # fmt: skip

    def _row(self, asked: float, heat: str) -> Floats:
        return row(asked, heat, (*self.heats, self.heat))


def fitted(trials: Sequence[BendTrial], prior: SlopePrior, heats: Sequence[str]) -> Regression:
    """Springback = zero error + (slope + what the heat adds) times the angle bent to, plus noise [rad].

    heats: those that there are, repeated ones once. Prior: zero error N(0, ZERO_SPREAD), slope from physics, what a
    heat adds N(0, HEAT_SPREAD of the slope), noise BEND_NOISE.

    Holds for bends on one die in one section, from about 10° to what the die turns.
    Source: `regress`; springback in proportion to the angle follows from `kept_angle` in the bending room.
    """
    known = tuple(dict.fromkeys(heats))
    design = np.array([row(trial.asked, trial.heat, known) for trial in trials]).reshape(len(trials), 2 + len(known))
    seen = np.array([trial.opened for trial in trials])
    means = np.array([0.0, prior.slope, *[0.0] * len(known)])
    among = max(HEAT_SPREAD * prior.slope, 1e-6)
    scale = np.array([ZERO_SPREAD, max(prior.spread, 1e-6), *[among] * len(known)])
    return regress(design, seen, means, scale, BEND_NOISE)


def row(asked: float, heat: str, heats: Sequence[str]) -> Floats:
    """A row (2 + h,) of the design for a bend to `asked` [rad] in a heat."""
    known = tuple(dict.fromkeys(heats))
    return np.array([1.0, asked, *[asked * (heat == one) for one in known]])
