"""The best way to fill one bar: an exact bounded knapsack that answers for every bar length in one pass."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Protocol

import numpy as np
from numpy.typing import NDArray

from fitwright.making.cutting.completion import Completion

Whole = NDArray[np.int64]

TABLE_CAPACITY = 10_000
"""Up to this capacity a table over every length is quicker than a list of the lengths reached (measured)."""


class Fillings(Protocol):
    """The best fillings of bars up to some capacity, by index; an index that is larger means a longer bar."""

    def best(self, capacity: int) -> int:
        """Index of the best filling no longer than `capacity`."""

    def worth(self, index: int) -> int:
        """What the filling at `index` is worth."""

    def counts(self, index: int) -> tuple[int, ...]:
        """How many pieces of each size (m,) the filling at `index` has."""


@dataclass(frozen=True)
class Ceiling:
    """Bars of `capacity` (k,), and the worth (k,) above which a filling of each is wanted."""

    capacity: Whole
    worth: Whole


def fillings(sizes: Whole, worth: Whole, most: Whole, ceiling: Ceiling) -> Fillings:
    """Fillings of bars by at most `most` (m,) pieces of `sizes` (m,) worth `worth` (m,) each.

    For every bar of the ceiling, `best` is a filling of greatest worth if any exceeds that bar's ceiling.

    Holds for positive sizes and non-negative worths whose sum is below 2**62; in integers, so the result is exact.
    Source: Kellerer, Pferschy, Pisinger, Knapsack Problems (2004), sections 2.3 and 3.4 (from memory).
    """
    longest = int(ceiling.capacity.max())
    useful = np.flatnonzero((worth > 0) & (sizes <= longest) & (most > 0))
    order = useful[np.argsort(-worth[useful] / sizes[useful], kind="stable")]
    if longest <= TABLE_CAPACITY:
        return _Table.of(sizes, worth, most, order, longest)
    return _Reachable.of(sizes, worth, most, order, ceiling)


@dataclass(frozen=True)
class _Table:
    """best: (capacity + 1,) greatest worth for each length; steps: (item, copies, where taken (capacity + 1,))."""

    kinds: int
    sizes: Whole
    table: Whole
    steps: tuple[tuple[int, int, NDArray[np.bool_]], ...]

    @staticmethod
    def of(sizes: Whole, worth: Whole, most: Whole, order: Whole, capacity: int) -> _Table:
        table = np.zeros(capacity + 1, dtype=np.int64)
        steps: list[tuple[int, int, NDArray[np.bool_]]] = []
        for item in order.tolist():
            for copies in _bundles(min(int(most[item]), capacity // int(sizes[item]))):
                size, value = copies * int(sizes[item]), copies * int(worth[item])
                taken = np.zeros(capacity + 1, dtype=np.bool_)
                extended = table[: capacity + 1 - size] + value
                np.greater(extended, table[size:], out=taken[size:])
                np.maximum(extended, table[size:], out=extended)
                table[size:] = extended
                steps.append((item, copies, taken))
        return _Table(len(sizes), sizes, table, tuple(steps))

    def best(self, capacity: int) -> int:
        return capacity

    def worth(self, index: int) -> int:
        return int(self.table[index])

    def counts(self, index: int) -> tuple[int, ...]:
        counts = [0] * self.kinds
        at = index
        for item, copies, taken in reversed(self.steps):
            if taken[at]:
                counts[item] += copies
                at -= copies * int(self.sizes[item])
        return tuple(counts)


@dataclass(frozen=True)
class _Reachable:
    """length, worths: (s,) the undominated fillings, ascending; steps: (item, parent (s,), copies (s,))."""

    kinds: int
    length: Whole
    worths: Whole
    steps: tuple[tuple[int, Whole, Whole], ...]

    @staticmethod
    def of(sizes: Whole, worth: Whole, most: Whole, order: Whole, ceiling: Ceiling) -> _Reachable:
        longest = int(ceiling.capacity.max())
        rest = Completion.of(sizes[order], worth[order], most[order], longest)
        length = worths = np.zeros(1, dtype=np.int64)
        steps: list[tuple[int, Whole, Whole]] = []
        for step, item in enumerate(order.tolist()):
            copies = np.arange(min(int(most[item]), longest // int(sizes[item])) + 1)
            grown = (length + copies[:, None] * sizes[item]).ravel()
            valued = (worths + copies[:, None] * worth[item]).ravel()
            excess = rest.excess(step + 1, ceiling.capacity, ceiling.worth)
            kept = np.flatnonzero(grown <= longest)
            kept = kept[(valued[kept] + excess[grown[kept] // rest.grain] > 0) | (grown[kept] == 0)]
            kept = kept[_undominated(grown[kept], valued[kept])]
            steps.append((item, kept % len(length), kept // len(length)))
            length, worths = grown[kept], valued[kept]
        return _Reachable(len(sizes), length, worths, tuple(steps))

    def best(self, capacity: int) -> int:
        return int(np.searchsorted(self.length, capacity, side="right")) - 1

    def worth(self, index: int) -> int:
        return int(self.worths[index])

    def counts(self, index: int) -> tuple[int, ...]:
        counts = [0] * self.kinds
        at = index
        for item, parent, copies in reversed(self.steps):
            counts[item] += int(copies[at])
            at = int(parent[at])
        return tuple(counts)


def _bundles(most: int) -> list[int]:
    """Bundles of 1, 2, 4, ... pieces and a rest, from which any number up to `most` can be made."""
    bundles: list[int] = []
    size = 1
    while most > 0:
        bundles.append(min(size, most))
        most -= bundles[-1]
        size *= 2
    return bundles


def _undominated(length: Whole, worth: Whole) -> Whole:
    """Indices, by ascending length, of the fillings that are worth more than every shorter one."""
    order = np.argsort(length, kind="stable")
    ahead = np.maximum.accumulate(worth[order])
    better = np.ones(len(order), dtype=np.bool_)
    better[1:] = worth[order][1:] > ahead[:-1]
    return order[better]
