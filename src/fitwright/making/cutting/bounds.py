"""Lower bounds without a linear programme: by length alone, and by dual-feasible functions for bars of one kind."""

from __future__ import annotations

import math

import numpy as np

from fitwright.making.cutting.problem import Problem, Whole

ROUNDING = 1e-6
"""Of a cost, to be safe from rounding."""

MULTIPLES = 20
"""Rounding functions u(k) are tried for k up to this; larger ones add nothing at these sizes (measured)."""


def length_bound(problem: Problem) -> int:
    """No layout costs less than the length wanted, were it bought by the millimetre at each bar's rate, cheapest first.

    Holds for any list; the bound of the relaxation is never lower. Source: the relaxation by length alone, arithmetic.

    >>> bars, costs, limits = np.array([10, 9]), np.array([5, 0]), np.array([4, 1])
    >>> length_bound(Problem(np.array([7]), np.array([4]), bars, costs, limits, 0 * limits))
    10
    """
    left = int((problem.sizes * problem.demand).sum())
    cost = 0.0
    for bar in np.argsort(problem.cost / problem.capacity, kind="stable").tolist():
        taken = min(left, int(problem.capacity[bar]) * int(problem.limit[bar]))
        cost += taken * int(problem.cost[bar]) / int(problem.capacity[bar])
        left -= taken
    return math.ceil(cost - ROUNDING)


def bars_needed(problem: Problem) -> int:
    """At least so many of the longest bar are needed, were every bar as long as that.

    Holds for any list. The best of the functions f0 (large pieces count whole, small ones not), u(k) (rounding) and
    their composition, each of which keeps any set that fits fitting.
    Source: Fekete, Schepers, New classes of fast lower bounds for bin packing problems, Mathematical Programming 91
    (2001) 11-31, section 3 (from memory).

    >>> one = np.array([1])
    >>> bars_needed(Problem(np.array([6, 5]), np.array([2, 3]), np.array([10]), one, np.array([5]), 0 * one))
    4
    """
    capacity = int(problem.capacity.max())
    sizes, demand = problem.sizes, problem.demand
    best = -(-int((sizes * demand).sum()) // capacity)
    for cut in np.unique(sizes[sizes * 2 <= capacity]).tolist():
        kept = np.where(sizes > capacity - cut, capacity, np.where(sizes >= cut, sizes, 0))
        best = max(best, _rounded(kept, demand, capacity))
    return max(best, _rounded(sizes, demand, capacity))


def _rounded(sizes: Whole, demand: Whole, capacity: int) -> int:
    """The bound from sizes as they are and from u(k) of them for every k, in whole numbers."""
    best = -(-int((sizes * demand).sum()) // capacity)
    for k in range(1, MULTIPLES + 1):
        grown = (k + 1) * sizes
        share = np.where(grown % capacity == 0, k * sizes, grown // capacity * capacity)
        best = max(best, -(-int((share * demand).sum()) // (k * capacity)))
    return best
