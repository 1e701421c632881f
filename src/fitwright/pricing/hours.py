"""How long it takes, and how sure that is: the sum of many uncertain times as one skewed spread."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from statistics import NormalDist

TENTH = 0.1


@dataclass(frozen=True)
class Spread:
    """Something that comes out at about `mean`, one deviation `deviation`, never below 0 and now and then much more.

    Between its moments it is taken as lognormal.
    """

    mean: float
    deviation: float

    @property
    def low(self) -> float:
        """What it is less than one time in ten."""
        return self.quantile(TENTH)

    @property
    def high(self) -> float:
        """What it is more than one time in ten."""
        return self.quantile(1 - TENTH)

    def quantile(self, share: float) -> float:
        """What it stays below with this chance.

        >>> spread = Spread(20.0, 0.0)
        >>> spread.quantile(0.9)
        20.0
        """
        if self.deviation <= 0 or self.mean <= 0:
            return self.mean
        middle, width = self._logarithms
        return math.exp(middle + width * NormalDist().inv_cdf(share))

    def at_most(self, value: float) -> float:
        """The chance that it is no more than a value."""
        if value <= 0:
            return 0.0
        if self.deviation <= 0 or self.mean <= 0:
            return 1.0 if value >= self.mean else 0.0
        middle, width = self._logarithms
        return NormalDist().cdf((math.log(value) - middle) / width)

    @property
    def _logarithms(self) -> tuple[float, float]:
        """Mean and deviation of its logarithm."""
        variance = math.log1p((self.deviation / self.mean) ** 2)
        return math.log(self.mean) - variance / 2, math.sqrt(variance)


@dataclass(frozen=True)
class Part:
    """One step's time or money: its mean, its kind, and deviations as fractions of the mean.

    own: of this step by itself; of_kind: of the rate of its kind, which all steps of that kind have in common.
    """

    mean: float
    kind: str
    own: float
    of_kind: float = 0.0


def together(parts: Sequence[Part], common: float) -> Spread:
    """The sum of parts, with a common factor on all of them.

    common: one deviation of the factor by which everything goes slower or quicker, which does not average out.

    Holds for factors (of the step, of its kind, of the job) that are independent and multiply. The sum is given its
    exact first two moments, and the shape of a lognormal.
    Source: L. F. Fenton, The sum of log-normal probability distributions in scatter transmission systems, IRE
    Transactions on Communications Systems 8 (1960) 57-67, matching of moments (from memory).

    >>> together([Part(3.0, "a", 0.4), Part(4.0, "b", 0.3)], 0.0).deviation
    1.697...
    >>> together([Part(3.0, "a", 0.0), Part(4.0, "a", 0.0)], 0.1).deviation
    0.7...
    """
    return Spread(sum(part.mean for part in parts), math.sqrt(sum(_covariances(parts, common))))


def shares(parts: Sequence[Part], common: float) -> tuple[float, ...]:
    """How much of the variance of the sum each part makes, 0 to 1; all 0 for a sum that is sure."""
    each = _covariances(parts, common)
    whole = sum(each)
    return tuple(one / whole if whole > 0 else 0.0 for one in each)


def _covariances(parts: Sequence[Part], common: float) -> list[float]:
    """Of each part with the sum; they add up to its variance."""
    whole = sum(part.mean for part in parts)
    of_kind = {kind: sum(part.mean for part in parts if part.kind == kind) for kind in {part.kind for part in parts}}
    found = []
    for part in parts:
        alike = of_kind[part.kind]
        same_kind = part.mean * (alike - part.mean) + part.mean**2 * (1 + part.own**2)
        product = (1 + common**2) * ((1 + part.of_kind**2) * same_kind + part.mean * (whole - alike))
        found.append(max(product - part.mean * whole, 0.0))
    return found
