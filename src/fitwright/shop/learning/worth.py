"""How many trial bends are worth making."""

from __future__ import annotations

import math
from dataclasses import dataclass

from fitwright.shop.learning.springback import BendLaw

TRIAL_MINUTES = 8.0  # the table of rates has it so, for each trial bend
AMEND_MINUTES = 15.0  # to take a bend out of tolerance back and touch it up (common practice)
MOST = 12


@dataclass(frozen=True)
class Worth:
    """Trials worth making, the chance of a bend within tolerance now and after them, and time that they save in all."""

    trials: int
    now: float
    after: float
    saves_minutes: float


def trials_worth(
    law: BendLaw,
    angle: float,
    tolerance: float,
    bends: int,
    trial_minutes: float = TRIAL_MINUTES,
    amend_minutes: float = AMEND_MINUTES,
) -> Worth:
    """How many more trials at this angle pay: each costs time, and makes it likelier that bends are right at once.

    angle, tolerance [rad]: bends within plus or minus tolerance are right; bends: to be made with this law.

    Holds for normal noise of the size that is expected now; what a trial may show of the noise itself is left out.
    Source: expected value of sample information for a normal mean, Raiffa and Schlaifer, Applied Statistical Decision
    Theory (1961), 5.4 (from memory): with k trials the variance v of the mean becomes v n / (n + k v), n of the noise.
    """
    command = angle / max(1 - law.prior.slope, 0.5)
    mean = law.mean_opening(command).deviation ** 2
    noise = law.fit.noise**2
    chances = [_within(tolerance, mean * noise / (noise + k * mean) + noise) for k in range(MOST + 1)]
    costs = [k * trial_minutes + bends * (1 - chance) * amend_minutes for k, chance in enumerate(chances)]
    best = min(range(MOST + 1), key=lambda k: costs[k])
    return Worth(best, chances[0], chances[best], costs[0] - costs[best])


def _within(tolerance: float, variance: float) -> float:
    return math.erf(tolerance / math.sqrt(2 * variance))
