"""How long the shop takes, against the table of rates, from its recorded hours."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from fitwright.shop.learning.regression import Noise, regress

# How far one shop's usual time for a kind of step is off the table, and how far one step strays from that, as natural
# logarithms (common practice: four in five within half and one and a half times). Records count against both.
KIND_SPREAD = 0.3
STEP_NOISE = Noise(0.4, 6.0)
LARGEST_RATIO = 20.0
SIGMAS_OF_90 = 1.645


@dataclass(frozen=True)
class HoursSeen:
    """One recorded step: its kind, hours of work that it took (of all hands), and what the table gives for it."""

    kind: str
    took: float
    usual: float


@dataclass(frozen=True)
class HoursFactor:
    """Time over the table's for one kind of step: the middle, its 90 % range for one step, and the deviation of the
    logarithm of it; `of_mean` is that of the shop's usual time alone. count: records that it is from."""

    factor: float
    low: float
    high: float
    spread: float
    of_mean: float
    count: int

    @property
    def basis(self) -> str:
        """Where it comes from."""
        if not self.count:
            return "common practice; nothing recorded yet"
        return f"{self.count} recorded time{'s' if self.count != 1 else ''} of this shop, shrunk toward the table"


def hours_factors(seen: Sequence[HoursSeen]) -> Mapping[str, HoursFactor]:
    """Time over the table's for every kind of step with records; "" is that of all others.

    Few records count little: with one, a factor goes about a third of the way from 1 to what it shows.
    Holds for times that stray in proportion. Steps at over 20 times the table, or under a twentieth, are left out.
    Source: normal shrinkage of log ratios, Gelman and others, Bayesian Data Analysis, 3rd edition, 5.4 (from memory);
    `regress` with one coefficient a kind and one noise for all.
    """
    used = [one for one in seen if one.usual > 0 and one.took > 0 and abs(math.log(one.took / one.usual)) < _LARGEST]
    kinds = tuple(dict.fromkeys(one.kind for one in used))
    size = len(kinds) + 1
    design = np.array([[float(one.kind == kind) for kind in (*kinds, "")] for one in used]).reshape(len(used), size)
    ratios = np.array([math.log(one.took / one.usual) for one in used])
    fit = regress(design, ratios, np.zeros(size), np.full(size, KIND_SPREAD), STEP_NOISE)
    found = {}
    for place, kind in enumerate((*kinds, "")):
        row = np.eye(size)[place]
        ahead, mean = fit.next(row), fit.value(row)
        low, high = ahead.interval()
        count = sum(one.kind == kind for one in used)
        found[kind] = HoursFactor(
            math.exp(mean.mean), math.exp(low), math.exp(high), ahead.deviation, mean.deviation, count
        )
    return found


_LARGEST = math.log(LARGEST_RATIO)
