"""Repeats and mirrors: where each copy of a part stands."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from itertools import product

import numpy as np
from numpy.typing import NDArray

from fitwright.job.model import Along, Around, Mirror, Placing, Slanted

Floats = NDArray[np.float64]
Inset = Callable[[int], tuple[float, float, float] | None]


@dataclass(frozen=True, eq=False)
class Copy:
    """One copy: points x become turn @ x + move; turn (3, 3) may be a reflection, move (3,) [mm]."""

    turn: Floats
    move: Floats

    def points(self, points: Floats) -> Floats:
        """Points (..., 3) of the copy."""
        return np.asarray(points @ self.turn.T + self.move)

    def directions(self, vectors: Floats) -> Floats:
        """Directions (..., 3) of the copy."""
        return np.asarray(vectors @ self.turn.T)


def copies(placings: tuple[Placing, ...], inset: Inset = lambda axis: None) -> list[Copy]:
    """Every copy that the placings make, the first as drawn where it has a place there.

    inset: for parts drawn on the outside, how far along an axis the part reaches below and above its line and where
    the line is [mm], or None where that axis is not across the part: the lowest copy then lies inside its place,
    the highest too, and those between share the difference evenly.
    """
    made = [Copy(np.eye(3), np.zeros(3))]
    for step in _steps(placings):
        made = [after for before, there in product(made, [step]) for after in _placed(before, there, inset)]
    return made


def _steps(placings: tuple[Placing, ...]) -> Iterator[Placing]:
    """Repeats before mirrors, in the order written."""
    yield from (placing for placing in placings if not isinstance(placing, Mirror))
    yield from (placing for placing in placings if isinstance(placing, Mirror))


def _placed(before: Copy, placing: Placing, inset: Inset) -> list[Copy]:
    if isinstance(placing, Along):
        return [_moved(before, placing.axis, offset) for offset in _offsets(placing, inset)]
    if isinstance(placing, Slanted):
        return [Copy(before.turn, before.move + k * np.array(placing.step)) for k in range(placing.count)]
    if isinstance(placing, Around):
        return [_turned(before, placing, 2 * np.pi * k / placing.count) for k in range(placing.count)]
    return _mirrored(before, placing, inset)


def _offsets(placing: Along, inset: Inset) -> list[float]:
    reach = inset(placing.axis)
    low, high = min(placing.offsets), max(placing.offsets)
    if reach is None or high - low <= 0:
        return list(placing.offsets)
    parts = [(offset - low) / (high - low) for offset in placing.offsets]
    return [x + reach[0] * (1 - part) - reach[1] * part for x, part in zip(placing.offsets, parts, strict=True)]


def _moved(before: Copy, axis: int, offset: float) -> Copy:
    return Copy(before.turn, before.move + offset * np.eye(3)[axis])


def _turned(before: Copy, placing: Around, angle: float) -> Copy:
    cos, sin = np.cos(angle), np.sin(angle)
    turn = np.array([[cos, -sin, 0], [sin, cos, 0], [0, 0, 1]])
    hub = np.array([placing.x, placing.y, 0.0])
    return Copy(turn @ before.turn, turn @ (before.move - hub) + hub)


def _mirrored(before: Copy, placing: Mirror, inset: Inset) -> list[Copy]:
    reach = inset(placing.axis)
    axis = np.eye(3)[placing.axis]
    near = before
    if reach is not None:
        towards = 1.0 if placing.at >= reach[2] + before.move[placing.axis] else -1.0
        near = Copy(before.turn, before.move + towards * reach[0 if towards > 0 else 1] * axis)
    flip = np.eye(3) - 2 * np.outer(axis, axis)
    return [near, Copy(flip @ near.turn, flip @ near.move + 2 * placing.at * axis)]
