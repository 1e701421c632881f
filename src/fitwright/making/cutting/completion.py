"""How much a part-filled bar can still become worth at most: a table in coarse steps of length."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Whole = NDArray[np.int64]

STEPS = 4000
"""Steps into which the longest bar is divided."""

NEVER = -(1 << 62)
"""Less than any worth."""


@dataclass(frozen=True)
class Completion:
    """table (m + 1, steps + 1): greatest worth of the sizes from a row's on, within each number of steps of `grain`.

    Sizes and lengths are both rounded down, so that whatever fits in millimetres fits in steps: an upper bound.
    """

    table: Whole
    grain: int

    @staticmethod
    def of(sizes: Whole, worth: Whole, most: Whole, longest: int) -> Completion:
        """For at most `most` (m,) pieces of `sizes` (m,) worth `worth` (m,), in bars up to `longest`."""
        grain = max(1, longest // STEPS)
        steps = longest // grain
        table = np.zeros((len(sizes) + 1, steps + 1), dtype=np.int64)
        for item in range(len(sizes) - 1, -1, -1):
            table[item] = _with(table[item + 1], int(sizes[item]) // grain, int(worth[item]), int(most[item]))
        return Completion(table, grain)

    def worth(self, first: int, length: Whole) -> Whole:
        """(s,) at most what the sizes from `first` on can add within each length."""
        added: Whole = self.table[first][length // self.grain]
        return added

    def excess(self, first: int, capacity: Whole, ceiling: Whole) -> Whole:
        """(steps + 1,) by steps already filled: the most that sizes from `first` on add beyond some `ceiling` (k,)."""
        row = self.table[first]
        most = np.full(len(row), NEVER, dtype=np.int64)
        for steps, limit in zip((capacity // self.grain).tolist(), ceiling.tolist(), strict=True):
            np.maximum(most[: steps + 1], row[steps::-1] - limit, out=most[: steps + 1])
        return most


def _with(row: Whole, size: int, value: int, most: int) -> Whole:
    """The table row once up to `most` pieces of one size are allowed as well."""
    bundle = 1
    while most > 0 and bundle * size < len(row):
        bundle = min(bundle, most)
        length = bundle * size
        grown = row.copy()
        np.maximum(row[length:], row[: len(row) - length] + bundle * value, out=grown[length:])
        row = grown
        most -= bundle
        bundle *= 2
    return row
