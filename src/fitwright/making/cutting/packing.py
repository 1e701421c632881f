"""First plans: quick rules that fill one bar after another."""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING

import numpy as np

from fitwright.making.cutting.knapsack import Ceiling, fillings
from fitwright.making.cutting.problem import Layout, Pattern, Problem, Whole

if TYPE_CHECKING:
    from fitwright.making.cutting.clock import Clock

MANY = 3000
"""More pieces than this are not placed one by one."""

STEPS = 3000
"""Steps into which the longest bar is divided where speed counts more than the last hair."""


def best_fit(problem: Problem) -> Layout | None:
    """Each piece, longest first, goes where least is left over; a new bar is the cheapest for its length.

    None when the bars on hand do not suffice this way. Very many pieces are placed a bar at a time instead.
    Source: best-fit decreasing, common practice.
    """
    if problem.pieces > MANY:
        return longest_first(problem)
    order = np.repeat(np.arange(len(problem.sizes)), problem.demand)
    room = np.zeros(len(order), dtype=np.int64)
    bars: list[int] = []
    content: list[list[int]] = []
    limit = problem.limit.copy()
    for item in order.tolist():
        size = int(problem.sizes[item])
        left = np.where(room[: len(bars)] >= size, room[: len(bars)], np.iinfo(np.int64).max)
        slot = int(np.argmin(left)) if len(bars) else 0
        if not bars or room[slot] < size:
            bar = _cheapest_by_length(problem, size, limit)
            if bar is None:
                return None
            slot = len(bars)
            limit[bar] -= 1
            room[slot] = problem.capacity[bar]
            bars.append(bar)
            content.append([])
        room[slot] -= size
        content[slot].append(item)
    return cheapest_bars(
        problem, tuple(_pattern(problem, bar, items) for bar, items in zip(bars, content, strict=True))
    )


def longest_first(problem: Problem) -> Layout | None:
    """Each bar takes of the longest pieces what it can, then of the next; bars alike are filled together.

    None when the bars on hand do not suffice this way. Source: first-fit decreasing, common practice.
    """
    layout: list[Pattern] = []
    demand, limit = problem.demand.copy(), problem.limit.copy()
    while demand.any():
        first = int(np.flatnonzero(demand)[0])
        bar = _cheapest_by_length(problem, int(problem.sizes[first]), limit)
        if bar is None:
            return None
        taken, room = np.zeros_like(demand), int(problem.capacity[bar])
        for item in np.flatnonzero(demand).tolist():
            taken[item] = min(int(demand[item]), room // int(problem.sizes[item]))
            room -= int(taken[item]) * int(problem.sizes[item])
        times = min(int(limit[bar]), int(np.min(demand[taken > 0] // taken[taken > 0])))
        layout += [Pattern(bar, tuple(taken.tolist()))] * times
        demand -= times * taken
        limit[bar] -= times
    return cheapest_bars(problem, tuple(layout))


def fill_in_turn(problem: Problem, clock: Clock) -> Layout | None:
    """Fill the bar that takes most length for its cost as fully as it can be, then the next, until all is cut.

    Lengths are in coarse steps, sizes rounded up, so that it is quick. None when the bars or the time do not suffice.
    Source: minimum bin slack, Gupta, Ho, Production Planning and Control 10 (1999) 598-603 (from memory).
    """
    grain = -(-int(problem.capacity.max()) // STEPS)
    sizes, capacity = -(-problem.sizes // grain), problem.capacity // grain
    layout: list[Pattern] = []
    demand, limit = problem.demand.copy(), problem.limit.copy()
    while demand.any():
        usable = np.flatnonzero(limit > 0)
        if not len(usable) or clock.over:
            return None
        filled = fillings(sizes, problem.sizes, demand, Ceiling(capacity[usable], np.zeros_like(usable)))
        gains = [(filled.best(int(capacity[bar])), bar) for bar in usable.tolist()]
        index, bar = max(gains, key=lambda gain: _for_its_cost(filled.worth(gain[0]), int(problem.cost[gain[1]])))
        counts = filled.counts(index)
        if not any(counts):
            return None
        taken = np.array(counts)
        times = min(int(limit[bar]), int(np.min(demand[taken > 0] // taken[taken > 0])))
        layout += [Pattern(bar, counts)] * times
        demand -= times * taken
        limit[bar] -= times
    return cheapest_bars(problem, tuple(layout))


def cheapest_bars(problem: Problem, layout: Layout) -> Layout:
    """The same pieces together, each lot on the cheapest bar that takes it; longest lots choose first."""
    limit = problem.limit - _used(problem, layout)
    changed: list[Pattern] = []
    for pattern in sorted(layout, key=problem.length_of, reverse=True):
        fits = np.flatnonzero((problem.capacity >= problem.length_of(pattern)) & (limit > 0))
        best = min(fits.tolist(), key=lambda bar: (problem.cost[bar], problem.capacity[bar]), default=pattern.bar)
        if problem.cost[best] < problem.cost[pattern.bar]:
            limit[best] -= 1
            limit[pattern.bar] += 1
            pattern = Pattern(best, pattern.counts)
        changed.append(pattern)
    return tuple(changed)


def _used(problem: Problem, layout: Layout) -> Whole:
    used = Counter(pattern.bar for pattern in layout)
    return np.array([used[bar] for bar in range(len(problem.limit))], dtype=np.int64)


def _for_its_cost(worth: int, cost: int) -> tuple[bool, float]:
    """Order of preference: bars that cost nothing first, then most worth for the cost."""
    return (cost == 0 and worth > 0, worth if cost == 0 else worth / cost)


def _cheapest_by_length(problem: Problem, size: int, limit: Whole) -> int | None:
    fits = np.flatnonzero((problem.capacity >= size) & (limit > 0))
    if not len(fits):
        return None
    rate = problem.cost[fits] / problem.capacity[fits]
    return int(fits[np.lexsort((-problem.capacity[fits], rate))[0]])


def _pattern(problem: Problem, bar: int, items: list[int]) -> Pattern:
    return Pattern(bar, tuple(np.bincount(items, minlength=len(problem.sizes)).tolist()))
