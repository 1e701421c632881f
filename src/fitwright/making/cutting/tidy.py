"""Between plans of the same cost: fewer bars first, then the largest remnant in one piece."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np

from fitwright.making.cutting.knapsack import Ceiling, fillings
from fitwright.making.cutting.problem import Layout, Pattern, Problem
from fitwright.making.cutting.solve import improve

if TYPE_CHECKING:
    from fitwright.making.cutting.clock import Clock


NODES = 60
"""How far to look for fewer bars: counted in nodes, not seconds, so that the same request gets the same plan."""


def fewest_bars(problem: Problem, layout: Layout, patterns: tuple[Pattern, ...], clock: Clock) -> Layout:
    """A layout that costs no more and has as few bars as a short search finds; the one given if none has fewer.

    patterns: some to start with, from the search for the cost.
    """
    if len(set(problem.cost.tolist())) == 1 and problem.cost[0] > 0:
        return layout
    counting = replace(problem, cost=problem.cost * (problem.pieces + 1) + 1)
    fewer = improve(counting, layout, patterns, NODES, clock)
    return fewer if (problem.cost_of(fewer), len(fewer)) < (problem.cost_of(layout), len(layout)) else layout


def shortest_bars(problem: Problem, layout: Layout) -> Layout:
    """Each lot on the shortest bar of the same cost that is left and takes it, so that longer ones stay whole."""
    limit = problem.limit.copy()
    for pattern in layout:
        limit[pattern.bar] -= 1
    changed: list[Pattern] = []
    for pattern in sorted(layout, key=problem.length_of):
        fits = (problem.cost == problem.cost[pattern.bar]) & (problem.capacity >= problem.length_of(pattern))
        spare = np.flatnonzero(fits & (limit > 0) & (problem.capacity < problem.capacity[pattern.bar]))
        if len(spare):
            shortest = int(spare[np.argmin(problem.capacity[spare])])
            limit[shortest] -= 1
            limit[pattern.bar] += 1
            pattern = Pattern(shortest, pattern.counts)
        changed.append(pattern)
    return tuple(changed)


def largest_remnant(problem: Problem, layout: Layout, clock: Clock) -> Layout:
    """Pieces exchanged between the bar with most left over and the others, so that it has still more left over."""
    patterns = list(layout)
    gained = True
    while gained and len(patterns) > 1 and not clock.over:
        left = [int(problem.capacity[pattern.bar]) - problem.length_of(pattern) for pattern in patterns]
        first = int(np.argmax(left))
        gained = False
        for other in range(len(patterns)):
            if other == first or left[other] == 0 or clock.over:
                continue
            pair = _concentrated(problem, patterns[first], patterns[other])
            if pair is not None:
                patterns[first], patterns[other] = pair
                gained = True
                break
    return tuple(pattern for pattern in patterns if any(pattern.counts))


def _concentrated(problem: Problem, loose: Pattern, full: Pattern) -> tuple[Pattern, Pattern] | None:
    """The pieces of two bars dealt again, the second as full as can be, if it gets any fuller."""
    together = np.array(loose.counts) + np.array(full.counts)
    before = problem.length_of(full)
    capacity = problem.capacity[full.bar : full.bar + 1]
    filled = fillings(problem.sizes, problem.sizes, together, Ceiling(capacity, np.array([before])))
    index = filled.best(int(capacity[0]))
    if filled.worth(index) <= before:
        return None
    counts = np.array(filled.counts(index))
    return Pattern(loose.bar, tuple((together - counts).tolist())), Pattern(full.bar, tuple(counts.tolist()))
