"""Which tins to buy."""

from __future__ import annotations

import math
from collections.abc import Sequence

from fitwright.making.finishing.errors import FinishError
from fitwright.making.finishing.tables import table
from fitwright.units import Unit

UNITS_IN_SMALLEST = 20  # the smallest tin is divided so finely, so that every size is a whole number of these
Sold = tuple[str, float]


def sold(unit: Unit) -> tuple[Sold, ...]:
    """The tins that are sold: name and litres."""
    rows = table("coatings")["tins"]["inch" if unit == "inch" else "metric"]["sizes"]
    return tuple((str(name), float(litres)) for name, litres in rows)


def tins_for(litres: float, sizes: Sequence[Sold]) -> tuple[tuple[int, str, float], ...]:
    """The cheapest tins that hold enough, largest first: (how many, name, litres each); proven by enumeration.

    A tin's price goes with a power of what it holds. Raises FinishError without sizes.
    Source: least-cost covering by dynamic programming over the quantity.

    >>> tins_for(1.1, [("quart", 0.9464), ("gallon", 3.7854)])
    ((2, 'quart', 0.9464),)
    >>> tins_for(2.5, [("quart", 0.9464), ("gallon", 3.7854)])
    ((1, 'gallon', 3.7854),)
    """
    if not sizes or min(each for _, each in sizes) <= 0:
        raise FinishError("no tins to choose from: give sizes in litres above 0")
    if litres <= 0:
        return ()
    step = min(each for _, each in sizes) / UNITS_IN_SMALLEST
    holds = [math.floor(each / step + 1e-6) for _, each in sizes]
    price = [each ** table("coatings")["tins"]["power"] for _, each in sizes]
    counts = _cheapest(math.ceil(litres / step - 1e-9), holds, price)
    order = sorted(range(len(sizes)), key=lambda k: -sizes[k][1])
    return tuple((counts[k], *sizes[k]) for k in order if counts[k])


def _cheapest(need: int, holds: Sequence[int], price: Sequence[float]) -> list[int]:
    """How many of each size cover a need at the least price; of equals, the fewest tins."""
    best: list[tuple[float, int]] = [(0.0, 0)] + [(math.inf, 0)] * need
    taken = [0] * (need + 1)
    for wanted in range(1, need + 1):
        for k, hold in enumerate(holds):
            cost, tins = best[max(wanted - hold, 0)]
            if (cost + price[k], tins + 1) < best[wanted]:
                best[wanted], taken[wanted] = (cost + price[k], tins + 1), k
    counts, left = [0] * len(holds), need
    while left > 0:
        counts[taken[left]] += 1
        left = max(left - holds[taken[left]], 0)
    return counts
