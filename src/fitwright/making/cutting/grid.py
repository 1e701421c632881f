"""From millimetres and money to whole numbers, so that nothing is ever over-cut and every bound is exact."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction

import numpy as np

from fitwright.making.cutting.problem import Problem
from fitwright.making.cutting.request import Bar, Cut

FINE = 1_000_000
"""Grid lines in a millimetre. 1/64 in is a whole number of them (0.396875 mm), and so is any kerf in inches."""

COARSE = 100
"""Grid lines in a millimetre where lengths have no common measure to speak of: 0.01 mm is far below any saw."""

LONGEST = 1_000_000
"""With more grid lines than this in a bar the search gets slow, and the coarse grid serves."""

SLIP = 1e-9
"""mm of rounding error in a length that is not taken for length."""


@dataclass(frozen=True)
class Gridded:
    """The problem in whole numbers, which bar of the request each of its bars is, and which sizes the cuts have.

    bars: (k,) indices into the request's bars. sizes: for each cut of the request the index of its size.
    unit: what one of the problem's cost units is in money; quantum: the last figure in which prices are given.
    """

    problem: Problem
    bars: tuple[int, ...]
    sizes: tuple[int, ...]
    unit: Decimal
    quantum: Decimal


def gridded(cuts: Sequence[Cut], bars: Sequence[Bar], kerf: float, end_trim: float) -> Gridded:
    """The cuts and bars in whole numbers; bars that are of no use are left out.

    A bar of length L with end trim e holds pieces when their sum with one kerf between each two is at most L - e: flush
    it needs one kerf fewer than pieces, with a drop as many. Both say that the sum of (length + kerf) is at most
    L - e + kerf, because a drop shorter than the kerf is simply consumed. Hence each size is its length and a kerf,
    rounded up, and each capacity is L - e + kerf, rounded down.

    Holds for cuts of one piece or more that fit some bar. Source: common practice of the saw; the rule by arithmetic.
    """
    sizes, capacity = _on_grid(cuts, bars, kerf, end_trim)
    distinct = sorted(set(sizes), reverse=True)
    where = {size: index for index, size in enumerate(distinct)}
    demand = np.zeros(len(distinct), dtype=np.int64)
    for size, cut in zip(sizes, cuts, strict=True):
        demand[where[size]] += cut.quantity
    pieces = int(demand.sum())
    costs, unit = _whole_costs(bars)
    limit = [pieces if bar.on_hand is None else min(bar.on_hand, pieces) for bar in bars]
    kept = [
        index
        for index, bar in enumerate(bars)
        if limit[index] and capacity[index] >= distinct[-1] and not _beaten(index, bars, capacity)
    ]
    problem = Problem(
        np.array(distinct, dtype=np.int64),
        demand,
        np.array([capacity[index] for index in kept], dtype=np.int64),
        np.array([costs[index] for index in kept], dtype=np.int64),
        np.array([limit[index] for index in kept], dtype=np.int64),
        np.zeros(len(kept), dtype=np.int64),
    )
    return Gridded(problem, tuple(kept), tuple(where[size] for size in sizes), unit, _last_figure(bars))


def _on_grid(cuts: Sequence[Cut], bars: Sequence[Bar], kerf: float, end_trim: float) -> tuple[list[int], list[int]]:
    """Sizes rounded up and capacities rounded down to the coarsest grid that is exact, or to the coarse one."""
    sizes = [math.ceil((cut.length_mm + kerf - SLIP) * FINE) for cut in cuts]
    capacity = [math.floor((bar.length - end_trim + kerf + SLIP) * FINE) for bar in bars]
    step = math.gcd(*sizes)
    if max(capacity) // step > LONGEST:
        step = FINE // COARSE
    return [-(-size // step) for size in sizes], [max(0, length // step) for length in capacity]


def _whole_costs(bars: Sequence[Bar]) -> tuple[list[int], Decimal]:
    """Prices as multiples of their greatest common measure, so that a bound can be rounded up to the next price."""
    prices = [Fraction(bar.price) for bar in bars]
    denominator = math.lcm(*(price.denominator for price in prices))
    whole = [int(price * denominator) for price in prices]
    measure = math.gcd(*whole) or 1
    return [price // measure for price in whole], Decimal(measure) / Decimal(denominator)


def _last_figure(bars: Sequence[Bar]) -> Decimal:
    return Decimal(1).scaleb(min(0, *(int(bar.price.as_tuple().exponent) for bar in bars)))


def _beaten(index: int, bars: Sequence[Bar], capacity: Sequence[int]) -> bool:
    """Whether another bar, of which any number can be bought, is as long and no dearer; of two the same, the later."""
    bar = bars[index]
    for other, rival in enumerate(bars):
        if other == index or rival.on_hand is not None:
            continue
        if capacity[other] < capacity[index] or rival.price > bar.price:
            continue
        same = capacity[other] == capacity[index] and rival.price == bar.price
        if not same or (bar.on_hand is None and other < index):
            return True
    return False
