"""Keeping text clear: lines broken where a text stands, and what is written over what."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Bools = NDArray[np.bool_]


def around(box: Floats, margin: float) -> Floats:
    """A rectangle's corners (4, 2) moved outwards by a margin."""
    ahead = box[1] - box[0]
    up = box[3] - box[0]
    ahead, up = ahead / max(np.hypot(*ahead), 1e-9) * margin, up / max(np.hypot(*up), 1e-9) * margin
    grown: Floats = box + np.array([-ahead - up, ahead - up, ahead + up, up - ahead])
    return grown


def inside(bits: Floats, boxes: Floats) -> tuple[Floats, Floats]:
    """The interval of 0..1 of each straight bit (k, 2, 2) that lies in each convex box (b, 4, 2), counterclockwise.

    Lows and highs, each (k, b); low >= high where there is none.
    """
    edge = np.roll(boxes, -1, axis=1) - boxes
    normal = np.stack([-edge[..., 1], edge[..., 0]], axis=-1)
    offset = (normal * boxes).sum(axis=-1)
    at = np.einsum("kd,bjd->kbj", bits[:, 0], normal) - offset
    rate = np.einsum("kd,bjd->kbj", bits[:, 1] - bits[:, 0], normal)
    crossing = -at / np.where(rate == 0, 1.0, rate)
    low = np.where(rate > 0, crossing, np.where((rate == 0) & (at < 0), 2.0, 0.0)).max(axis=2, initial=0.0)
    high = np.where(rate < 0, crossing, 1.0).min(axis=2, initial=1.0)
    return low, high


def broken(line: Floats, boxes: Floats) -> list[Floats]:
    """A polyline (n, 2) as the bits of it that lie outside all boxes (b, 4, 2); whole when it meets none."""
    bits = np.stack([line[:-1], line[1:]], axis=1)
    if not len(boxes):
        return [line]
    low, high = inside(bits, boxes)
    met = low < high - 1e-9
    if not met.any():
        return [line]
    left: list[Floats] = []
    for bit, lows, highs, hit in zip(bits, low, high, met, strict=True):
        left += _outside(bit, sorted(zip(lows[hit].tolist(), highs[hit].tolist(), strict=True)))
    return left


def _outside(bit: Floats, taken: list[tuple[float, float]]) -> list[Floats]:
    """What sorted intervals of 0..1 leave of a straight bit (2, 2)."""
    kept, reach = [], 0.0
    for low, high in [*taken, (1.0, 1.0)]:
        if low - reach > 1e-6:
            kept.append(bit[0] + np.array([[reach], [low]]) * (bit[1] - bit[0]))
        reach = max(reach, high)
    return kept


def overlapping(boxes: Floats) -> list[tuple[int, int]]:
    """Pairs of rectangles (b, 4, 2), turned any way, that overlap by more than a hair."""
    pairs = []
    for i, j in zip(*np.triu_indices(len(boxes), 1), strict=True):
        if not apart(boxes[i], boxes[j]):
            pairs.append((int(i), int(j)))
    return pairs


def apart(box: Floats, other: Floats) -> bool:
    """Whether two rectangles (4, 2), turned any way, are clear of one another but for a hair."""
    return _split(box, other) or _split(other, box)


def _split(box: Floats, other: Floats) -> bool:
    """Whether a side direction of one rectangle separates it from another."""
    axes = np.array([box[1] - box[0], box[3] - box[0]])
    axes /= np.maximum(np.hypot(axes[:, 0], axes[:, 1]), 1e-9)[:, None]
    mine, yours = axes @ box.T, axes @ other.T
    gaps = np.maximum(mine.min(axis=1) - yours.max(axis=1), yours.min(axis=1) - mine.max(axis=1))
    return bool(gaps.max() >= -1e-3)


def meetings(bits: Floats, boxes: Floats) -> int:
    """How many of the rectangles (b, 4, 2) each bit (k, 2, 2) runs through, all told."""
    if not len(bits) or not len(boxes):
        return 0
    low, high = inside(bits, boxes)
    return int((low < high - 1e-6).sum())


def crossed(lines: list[Floats], boxes: Floats) -> list[tuple[int, int]]:
    """Pairs of a polyline (n, 2) and a rectangle (b, 4, 2) that it runs through."""
    pairs = []
    for number, line in enumerate(lines):
        low, high = inside(np.stack([line[:-1], line[1:]], axis=1), boxes)
        pairs += [(number, int(b)) for b in np.flatnonzero((low < high - 1e-6).any(axis=0))]
    return pairs
