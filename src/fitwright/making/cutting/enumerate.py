"""Every pattern that a layout cheaper than the best one could contain, if there are not too many."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from fitwright.making.cutting.completion import Completion
from fitwright.making.cutting.master import Prices
from fitwright.making.cutting.problem import Pattern, Problem, Whole


class TooMany(Exception):
    """More patterns than asked for; the caller goes another way."""


def patterns_within(problem: Problem, prices: Prices, gap: float, most: int) -> list[Pattern]:
    """Every pattern whose reduced cost is at most `gap` and to which no wanted piece can be added.

    A layout that costs no more than the relaxation plus the gap can be made of these, some giving more than wanted.
    Raises TooMany beyond `most` of them.
    Source: Baldacci, Christofides, Mingozzi, Mathematical Programming 115 (2008) 351-385, route enumeration
    (from memory), with the knapsack table as completion bound.
    """
    usable = np.flatnonzero(problem.limit > 0).tolist()
    longest = int(problem.capacity[usable].max())
    rest = Completion.of(problem.sizes, prices.worth, problem.demand, longest)
    found: list[Pattern] = []
    for capacity in sorted({int(problem.capacity[bar]) for bar in usable}):
        same = [bar for bar in usable if problem.capacity[bar] == capacity]
        reach = {bar: int(prices.reach(problem)[bar]) - int(gap * prices.scale + 1) for bar in same}
        counts, worth = _grow(problem, prices, rest, capacity, min(reach.values()), most)
        for bar in same:
            chosen = counts[worth >= reach[bar]]
            if len(found) + len(chosen) > most:
                raise TooMany
            found += [Pattern(bar, tuple(row)) for row in chosen.tolist()]
    return found


def _grow(
    problem: Problem, prices: Prices, rest: Completion, capacity: int, reach: int, most: int
) -> tuple[NDArray[np.int16], Whole]:
    """Counts (s, m) and worth (s,) of the full patterns of one capacity that are worth at least `reach`."""
    counts = np.zeros((1, len(problem.sizes)), dtype=np.int16)
    length, worth = np.zeros(1, dtype=np.int64), np.zeros(1, dtype=np.int64)
    least_out = np.full(1, np.iinfo(np.int64).max)
    for item, size in enumerate(problem.sizes.tolist()):
        top = min(int(problem.demand[item]), capacity // size)
        parts = []
        for copies in range(top + 1):
            longer, better = length + copies * size, worth + copies * int(prices.worth[item])
            keep = longer <= capacity
            keep[keep] = better[keep] + rest.worth(item + 1, capacity - longer[keep]) >= reach
            parts.append((np.flatnonzero(keep), copies, longer[keep], better[keep]))
        parent = np.concatenate([part[0] for part in parts])
        if len(parent) > 4 * most:
            raise TooMany
        counts = counts[parent]
        counts[:, item] = np.concatenate([np.full(len(part[0]), part[1]) for part in parts])
        length, worth = np.concatenate([part[2] for part in parts]), np.concatenate([part[3] for part in parts])
        left_out = counts[:, item] < problem.demand[item]
        least_out = np.where(left_out, size, least_out[parent])
    full = length + least_out.clip(max=capacity + 1) > capacity
    return counts[full], worth[full]
