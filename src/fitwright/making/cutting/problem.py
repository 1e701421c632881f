"""The cutting problem in whole numbers: sizes, demand, and bars with capacity, cost and limit."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

Whole = NDArray[np.int64]


@dataclass(frozen=True)
class Pattern:
    """One way of cutting one bar: the bar's index and how many of each size (m,) it gives."""

    bar: int
    counts: tuple[int, ...]


Layout = tuple[Pattern, ...]
"""One pattern for each bar that is cut."""


@dataclass(frozen=True)
class Problem:
    """Cut `demand` (m,) pieces of `sizes` (m,) from at most `limit` (k,) bars of `capacity` (k,) at `cost` (k,) each.

    All are whole numbers; sizes are distinct and descending; a bar without a limit has one equal to the pieces wanted,
    which can never bind. `least` (k,) bars of each are to be used where a search has said so, else none.
    """

    sizes: Whole
    demand: Whole
    capacity: Whole
    cost: Whole
    limit: Whole
    least: Whole

    @property
    def pieces(self) -> int:
        """How many pieces are wanted."""
        return int(self.demand.sum())

    @property
    def binding(self) -> NDArray[np.bool_]:
        """(k,) which bars have a limit that can bind, from above or below."""
        return (self.limit < self.pieces) | (self.least > 0)

    @property
    def dearest(self) -> int:
        """More than any sensible layout can cost: every bar that is there, or one for each piece."""
        return int((self.cost * np.minimum(self.limit, self.pieces)).sum()) + 1

    def cost_of(self, layout: Layout) -> int:
        """What the bars of a layout cost together."""
        return int(sum(int(self.cost[pattern.bar]) for pattern in layout))

    def length_of(self, pattern: Pattern) -> int:
        """How much of its bar a pattern takes."""
        return int(np.dot(self.sizes, pattern.counts))

    def left_after(self, layout: Layout) -> Problem:
        """What is still to be cut, from what bars, once a layout is cut."""
        made = sum((np.array(pattern.counts) for pattern in layout), np.zeros_like(self.demand))
        used = Counter(pattern.bar for pattern in layout)
        taken = np.array([used[bar] for bar in range(len(self.limit))])
        return replace(
            self,
            demand=np.maximum(self.demand - made, 0),
            limit=np.maximum(self.limit - taken, 0),
            least=np.zeros_like(self.least),
        )

    def holds(self, layout: Layout) -> bool:
        """Whether a layout cuts exactly what is wanted, over-cuts no bar and uses no bar that is not there."""
        made = sum((np.array(pattern.counts) for pattern in layout), np.zeros_like(self.demand))
        used = Counter(pattern.bar for pattern in layout)
        return (
            bool(np.array_equal(made, self.demand))
            and all(self.length_of(pattern) <= self.capacity[pattern.bar] for pattern in layout)
            and all(count <= self.limit[bar] for bar, count in used.items())
        )


def trimmed_to(problem: Problem, layout: Layout) -> Layout:
    """The layout without the pieces that it makes beyond the demand, nor the bars that this leaves uncut."""
    left = problem.demand.copy()
    kept: list[Pattern] = []
    for pattern in layout:
        counts = np.minimum(pattern.counts, left)
        left -= counts
        if counts.any():
            kept.append(Pattern(pattern.bar, tuple(counts.tolist())))
    return tuple(kept)
