"""The outside of a piece as straight edges and flat triangles: what could touch a wall."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from fitwright.piece import Piece, trimmed
from fitwright.piece.envelope import hardware_box

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
Mask = NDArray[np.bool_]
Edges = NDArray[np.float64]

ROUND_POINTS = 72  # a round of 40 mm is seen 0.02 mm too small
COARSER = 2  # for triangles every second point round, and every second ring along a bend: 0.1 mm of a round of 40
CORNERS = np.array([[x, y, z] for x in (0, 1) for y in (0, 1) for z in (0, 1)], dtype=float)
BOX_EDGES = [(a, b) for a in range(8) for b in range(a + 1, 8) if np.abs(CORNERS[a] - CORNERS[b]).sum() == 1]
QUADS = ((0, 1, 3, 2), (4, 6, 7, 5), (0, 4, 5, 1), (2, 3, 7, 6), (0, 2, 6, 4), (1, 5, 7, 3))
BOX_FACES = [face for a, b, c, d in QUADS for face in ((a, b, c), (a, c, d))]


@dataclass(frozen=True, eq=False)
class Skin:
    """The outside of the parts as triangles (k, 3, 3) [mm], and which of `names` each belongs to (k,).

    low, high: corners (k, 3) of the boxes round the triangles.
    """

    triangles: Floats
    owners: Ints
    names: tuple[str, ...]
    low: Floats
    high: Floats

    def moved(self, turn: Floats, shift: Floats) -> Skin:
        """Turned by a matrix (3, 3) and moved by (3,) [mm]."""
        triangles = self.triangles if np.array_equal(turn, np.eye(3)) else self.triangles @ turn.T
        return skin_of(triangles + shift, self.owners, self.names)

    def only(self, kept: Mask) -> Skin:
        """Some of the triangles (k,)."""
        return Skin(self.triangles[kept], self.owners[kept], self.names, self.low[kept], self.high[kept])

    def near(self, low: Floats, high: Floats) -> Skin:
        """The triangles whose boxes meet a box (3,), (3,)."""
        kept = np.ones(len(self.low), dtype=bool)
        for axis in range(3):  # column by column, which is several times as quick as all of a row
            kept &= (self.low[:, axis] <= high[axis]) & (self.high[:, axis] >= low[axis])
        return self.only(kept)

    def without(self, names: frozenset[str]) -> Skin:
        """All but some parts."""
        left_out = np.array([name in names for name in self.names], dtype=bool)
        return self.only(~left_out[self.owners])


def skin_of(triangles: Floats, owners: Ints, names: tuple[str, ...]) -> Skin:
    """Triangles with the boxes round them."""
    one, other, third = triangles[:, 0], triangles[:, 1], triangles[:, 2]
    low, high = np.minimum(np.minimum(one, other), third), np.maximum(np.maximum(one, other), third)
    return Skin(triangles, owners, names, low, high)


@lru_cache(maxsize=4)
def piece_edges(piece: Piece) -> Edges:
    """Edges (k, 2, 3) of every part, from one end of each to the other [mm]; casters swept through their swivel.

    Holds for walls that are straight between the heights where they were measured: an edge comes nearest to them at one
    of its ends or at such a height.
    """
    parts = [_member_edges(rings) for _, rings, _ in _rings(piece)]
    parts += [_box_edges(low, high) for _, low, high in _boxes(piece)]
    return np.vstack([*parts, np.zeros((0, 2, 3))])


@lru_cache(maxsize=4)
def piece_skin(piece: Piece) -> Skin:
    """The outside of every part as triangles; casters swept through their swivel, screws and the like left out."""
    found = [(name, _member_faces(rings, closed)) for name, rings, closed in _rings(piece)]
    solid = [(name, low, high) for name, low, high in _boxes(piece) if (high > low).all()]
    found += [(name, (low + CORNERS * (high - low))[BOX_FACES]) for name, low, high in solid]
    names = tuple(dict.fromkeys(name for name, _ in found))
    owners = [np.full(len(faces), names.index(name)) for name, faces in found]
    triangles = np.vstack([*(faces for _, faces in found), np.zeros((0, 3, 3))])
    return skin_of(triangles, np.concatenate([*owners, np.zeros(0, dtype=np.int64)]), names)


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


@lru_cache(maxsize=4)
def _rings(piece: Piece) -> tuple[tuple[str, list[Floats], bool], ...]:
    """Each member's name, its outlines (s, m, 3) segment by segment, and whether it is closed."""
    return tuple(
        (m.name, trimmed(m, piece.members).rings(ROUND_POINTS), m.path.closed)
        for m in piece.members
        if m.sleeve_of is None
    )


def _boxes(piece: Piece) -> list[tuple[str, Floats, Floats]]:
    boxes = [(panel.name, board.low, board.high) for panel in piece.panels for board in panel.boards]
    return boxes + [(item.name, *hardware_box(item, swept=True)) for item in piece.hardware if item.placed]


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


def _member_faces(rings: list[Floats], closed: bool) -> Floats:
    """Triangles (k, 3, 3) of one member's outside, its open ends closed by fans."""
    found = []
    for part in rings:
        every = COARSER if part.shape[1] == ROUND_POINTS else 1
        thin = part[_some(len(part)), ::every]
        here, onward = thin[:-1], thin[1:]
        beside, across = np.roll(here, -1, axis=1), np.roll(onward, -1, axis=1)
        for corners in ((here, beside, across), (here, across, onward)):
            found.append(np.stack(corners, axis=2).reshape(-1, 3, 3))
    for ring in () if closed else (rings[0][0], rings[-1][-1]):
        middle = np.broadcast_to(ring.mean(axis=0), ring.shape)
        found.append(np.stack([middle, ring, np.roll(ring, -1, axis=0)], axis=1))
    return np.vstack(found)


def _some(count: int) -> list[int]:
    """Every second of so many, and the last."""
    return sorted({*range(0, count, COARSER), count - 1})
