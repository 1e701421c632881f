"""Which totals the bars' costs can add up to: what lies between two of them no layout can cost."""

from __future__ import annotations

from dataclasses import dataclass

from fitwright.making.cutting.problem import Problem

LARGEST = 20_000_000
"""Beyond totals of this size the set of sums is not worth its memory, and every total is taken to be possible."""


@dataclass(frozen=True)
class Totals:
    """sums: bit n is set when some choice of bars costs n; 0 when every total is taken to be possible."""

    sums: int

    def next(self, bound: int) -> int:
        """The least possible total that is no less than `bound`."""
        if not self.sums:
            return bound
        above = self.sums >> bound
        return bound + (above & -above).bit_length() - 1 if above else max(bound, self.sums.bit_length())


def attainable(problem: Problem, below: int) -> Totals:
    """The totals under `below` that bars within their limits can cost together.

    >>> import numpy as np
    >>> one = np.ones(1, dtype=np.int64)
    >>> bars = Problem(one, 9 * one, np.array([5, 3]), np.array([7, 4]), np.array([9, 1]), np.array([0, 0]))
    >>> [Totals.next(attainable(bars, 30), bound) for bound in (1, 5, 8, 12, 19)]
    [4, 7, 11, 14, 21]
    """
    if below > LARGEST:
        return Totals(0)
    window = (1 << below) - 1
    sums = 1
    for cost, limit in zip(problem.cost.tolist(), problem.limit.tolist(), strict=True):
        if cost == 0:
            continue
        left, step = min(limit, below // cost), 1
        while left > 0:
            step = min(step, left)
            sums |= (sums << (step * cost)) & window
            left -= step
            step *= 2
    return Totals(sums)
