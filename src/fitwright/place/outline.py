"""The outside of a piece as straight edges: what could touch a wall."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from fitwright.piece import Piece, trimmed
from fitwright.piece.envelope import hardware_box

Floats = NDArray[np.float64]
Edges = NDArray[np.float64]

ROUND_POINTS = 72  # a round of 40 mm is seen 0.02 mm too small
CORNERS = np.array([[x, y, z] for x in (0, 1) for y in (0, 1) for z in (0, 1)], dtype=float)
BOX_EDGES = [(a, b) for a in range(8) for b in range(a + 1, 8) if np.abs(CORNERS[a] - CORNERS[b]).sum() == 1]


def piece_edges(piece: Piece) -> Edges:
    """Edges (k, 2, 3) of every part, from one end of each to the other [mm]; casters swept through their swivel.

    Holds for walls that are straight between the heights where they were measured: an edge comes nearest to them at one
    of its ends or at such a height.
    """
    parts = [_member_edges(trimmed(m, piece.members).rings(ROUND_POINTS)) for m in piece.members if m.sleeve_of is None]
    boxes = [(board.low, board.high) for panel in piece.panels for board in panel.boards]
    boxes += [hardware_box(item, swept=True) for item in piece.hardware if item.placed]
    parts += [_box_edges(low, high) for low, high in boxes]
    return np.vstack([*parts, np.zeros((0, 2, 3))])


def split_at(edges: Edges, axis: int, places: Floats) -> Floats:
    """Points (n, 3): the ends of edges, and where they pass the coordinates `places` (k,) along an axis [mm]."""
    start, finish = edges[:, 0], edges[:, 1]
    points = [start, finish]
    for place in places:
        before, after = start[:, axis] - place, finish[:, axis] - place
        passes = before * after < 0
        part = before[passes] / (before - after)[passes]
        points.append(start[passes] + part[:, None] * (finish - start)[passes])
    return np.vstack(points)


def _box_edges(low: Floats, high: Floats) -> Edges:
    corners = low + CORNERS * (high - low)
    return corners[BOX_EDGES]


def _member_edges(rings: list[Floats]) -> Edges:
    """Edges (k, 2, 3) along and round one member, from its outlines (s, m, 3) segment by segment."""
    found = []
    for part in rings:
        found.append(np.stack([part[:-1], part[1:]], axis=2).reshape(-1, 2, 3))
        found.append(np.stack([part, np.roll(part, -1, axis=1)], axis=2).reshape(-1, 2, 3))
    return np.vstack(found)
