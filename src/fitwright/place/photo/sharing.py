"""Unknowns that turn out to be one and the same, and which of them hang together."""

from __future__ import annotations

from collections.abc import Iterable

import numpy as np
from numpy.typing import NDArray

Ints = NDArray[np.int64]


class Sharing:
    """Numbers handed out, some of them said to be the same (union and find) or to belong to one thing."""

    def __init__(self) -> None:
        self._same: list[int] = []
        self._beside: list[int] = []

    def more(self, count: int) -> list[int]:
        """So many new numbers, which belong to one thing."""
        new = list(range(len(self._same), len(self._same) + count))
        self._same += new
        self._beside += new
        self.belong(new)
        return new

    def same(self, one: int, other: int) -> None:
        """The two are one unknown."""
        self._same[_root(self._same, other)] = _root(self._same, one)
        self.belong((one, other))

    def belong(self, numbers: Iterable[int]) -> None:
        """These belong to one thing."""
        first, *rest = numbers
        for other in rest:
            self._beside[_root(self._beside, other)] = _root(self._beside, first)

    def counted(self) -> tuple[Ints, Ints]:
        """For each number the unknown that it is, counted from 0; for each unknown the group to which it belongs."""
        roots = [_root(self._same, k) for k in range(len(self._same))]
        _, first, unknown = np.unique(np.array(roots, dtype=np.int64), return_index=True, return_inverse=True)
        group = np.array([_root(self._beside, int(k)) for k in first], dtype=np.int64)
        return unknown.astype(np.int64), np.unique(group, return_inverse=True)[1].astype(np.int64)


def _root(parents: list[int], number: int) -> int:
    while parents[number] != number:
        parents[number] = parents[parents[number]]
        number = parents[number]
    return number
