"""Springback by the shop's own trials, with physics as what was known before them."""

from __future__ import annotations

import math

from fitwright.making.bending.springback import SIGMAS_OF_90, Springback
from fitwright.shop import Die
from fitwright.shop.learning import LearningError, Learnt, SlopePrior


def by_trials(prior: Springback, die: Die, label: str, angle: float, learnt: Learnt) -> Springback:
    """The angle to bend to for a wanted `angle` [rad] on a die, in the stock of a label; the prior without trials.

    Also the prior where trials contradict one another so much that no angle follows.
    Holds for and Source: as `BendLaw`; `slope_prior`.
    """
    law = learnt.bend_law(die.name, label, slope_prior(prior, angle))
    if law is None:
        return prior
    try:
        found = law.overbend(angle)
    except LearningError:
        return prior
    heat = f", heat {found.heat}" if found.heat else ""
    other = found.trials - found.same_heat
    basis = f"{found.trials} trial{'s' if found.trials != 1 else ''} on this die{heat}"
    basis += f", {other} of them in other heats" if other else ""
    return Springback(angle / found.command, found.command, found.low, found.high, basis, found.trials)


# What the physics leaves out (give of machine and former, flattening, the tube beside the bend bending along) may be as
# much again as the springback itself (common practice).
LEFT_OUT = 1.0


def slope_prior(prior: Springback, angle: float) -> SlopePrior:
    """What physics says of springback over the angle bent to, and how far it is trusted against trials.

    The range of the yield stress and what the physics leaves out add up as independent deviations.

    >>> prior = slope_prior(Springback(0.96, math.radians(93.75), math.radians(92), math.radians(98)), math.radians(90))
    >>> round(prior.slope, 3), round(prior.spread, 3)
    (0.04, 0.044)
    """
    least, most = 1 - angle / prior.low, 1 - angle / prior.high
    slope = 1 - prior.kept
    return SlopePrior(slope, math.hypot((most - least) / (2 * SIGMAS_OF_90), LEFT_OUT * slope))
