"""A number with its spread, and how readings narrow it."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from fitwright.mechanics.shrinkage.errors import ShrinkageError

NINE_IN_TEN = 1.645
"""Standard deviations each side that hold nine values in ten of a normal spread: any table of the normal curve."""


@dataclass(frozen=True)
class Spread:
    """A mean and a standard deviation, in the unit of what it describes; basis: where the two come from.

    sure: the sign is known, so that the spread is a factor up or down (log-normal) and does not pass zero.
    """

    mean: float
    sd: float
    basis: str = ""
    sure: bool = False

    @property
    def low(self) -> float:
        """Nine in ten lie between this and `high`; this is the lower one."""
        return min(self._ends)

    @property
    def high(self) -> float:
        """Nine in ten lie between `low` and this."""
        return max(self._ends)

    @property
    def most(self) -> float:
        """The larger size of the two ends of the range."""
        return max(abs(end) for end in self._ends)

    @property
    def _ends(self) -> tuple[float, float]:
        if not self.sure or self.mean == 0:
            return self.mean - NINE_IN_TEN * self.sd, self.mean + NINE_IN_TEN * self.sd
        # log-normal of the same mean and standard deviation
        s2 = math.log1p((self.sd / self.mean) ** 2)
        middle, factor = self.mean * math.exp(-s2 / 2), math.exp(NINE_IN_TEN * math.sqrt(s2))
        return middle / factor, middle * factor


@dataclass(frozen=True)
class Reading:
    """A pull that was measured on a finished weldment, beside what the model said of it, both in mm.

    measured_sd: how well it was measured [mm]; scatter: how much one weldment differs from the next, as a share.
    """

    predicted: float
    measured: float
    measured_sd: float = 0.25
    scatter: float = 0.3


def narrowed(prior: Spread, readings: Sequence[Reading]) -> Spread:
    """The shop's own factor on predicted pulls, from the prior factor and what was measured.

    prior: of the factor (1 means: as predicted); each reading says measured = factor x predicted, give or take the
    measuring and the scatter from one weldment to the next. Readings whose prediction is near nothing tell nothing.

    Raises ShrinkageError for a reading without any spread.
    Holds for errors that are independent of one another and roughly normal.
    Source: conjugate normal prior, A. Gelman et al., Bayesian Data Analysis, 3rd ed., section 2.5 (from memory).

    >>> narrowed(Spread(1.0, 0.5), [Reading(1.0, 0.6, 0.1, 0.0)] * 4)
    Spread(mean=0.603..., sd=0.049..., basis='4 readings of this shop', sure=True)
    """
    if not readings:
        return prior
    precision = 1.0 / prior.sd**2 if prior.sd > 0 else math.inf
    if math.isinf(precision):
        return prior
    total = prior.mean * precision
    for reading in readings:
        spread = math.hypot(reading.measured_sd, reading.scatter * reading.predicted)
        if spread <= 0:
            raise ShrinkageError(
                f"a reading of {reading.measured} mm with no spread: say how well it was measured, such as 0.25 mm"
            )
        weight = 1.0 / spread**2
        precision += reading.predicted**2 * weight
        total += reading.predicted * reading.measured * weight
    said = f"{len(readings)} reading{'s' if len(readings) > 1 else ''} of this shop"
    return Spread(total / precision, precision**-0.5, said, sure=True)
