"""A way through in the plane, searched on a lattice of places and headings: for what is not answered exactly.

Clearances at the lattice's points are those of convex parts to convex walls. What lies between points is no farther
than half a step from one, so that where no chain of neighbours comes within that, there is no way at all.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from fitwright.place.route.convex import normals, turned

Floats = NDArray[np.float64]
Bools = NDArray[np.bool_]
Ints = NDArray[np.int64]

HALVINGS = 12
NEIGHBOURS = np.ones((3, 3, 3), dtype=int)


@dataclass(frozen=True, eq=False)
class Found:
    """The way with the most room: places and headings (n, 3) as x, y [mm], heading [rad]; room: the least along it.

    slack: how much more room there may be between the lattice's points [mm].
    """

    room: float
    slack: float
    way: Floats


@dataclass(frozen=True, eq=False)
class Lattice:
    """Convex parts (k, 2) that move together among convex walls (m, 2), within a window (2, 2), all in mm.

    step: between places [mm]; count: headings in a full turn; stop: whether to give up.
    """

    parts: tuple[Floats, ...]
    walls: tuple[Floats, ...]
    window: Floats
    step: float
    count: int
    stop: Callable[[], bool] = lambda: False

    @cached_property
    def xs(self) -> Floats:
        """Places (nx,) across [mm]."""
        return np.arange(self.window[0, 0], self.window[1, 0] + self.step / 2, self.step)

    @cached_property
    def ys(self) -> Floats:
        """Places (ny,) along [mm]."""
        return np.arange(self.window[0, 1], self.window[1, 1] + self.step / 2, self.step)

    @cached_property
    def headings(self) -> Floats:
        """Headings (n,) [rad]."""
        return np.arange(self.count) * 2 * np.pi / self.count

    @property
    def slack(self) -> float:
        """The farthest that a point of the parts is from where it is at the nearest point of the lattice [mm]."""
        reach = max(float(np.hypot(*part.T).max()) for part in self.parts)
        return float(self.step / np.sqrt(2) + reach * np.pi / self.count)

    @cached_property
    def room(self) -> Floats:
        """The least clearance (n, ny, nx) [mm]: less than nothing where parts and walls overlap.

        Source: separating axes of convex outlines, S. Gottschalk et al., OBBTree, SIGGRAPH (1996); of overlapping
        outlines the depth is exact, of others the distance may be told too small.
        """
        places = np.stack(np.meshgrid(self.xs, self.ys)).reshape(2, -1)
        walls = [_Sides(wall, places) for wall in self.walls]
        found = np.full((self.count, places.shape[1]), np.inf)
        for number, heading in enumerate(self.headings.tolist()):
            if self.stop():
                break
            for part in self.parts:
                outline = _Sides(turned(part, heading), places)
                for wall in walls:
                    np.minimum(found[number], _apart(outline, wall), out=found[number])
        return found.reshape(self.count, len(self.ys), len(self.xs))

    def extents(self, direction: Floats) -> tuple[Floats, Floats]:
        """Least and most (n, ny, nx) of the parts along a direction (2,) [mm], for saying where they are."""
        every = np.vstack(self.parts)
        reach = np.array([turned(every, float(heading)) @ direction for heading in self.headings])
        at = np.add.outer(self.ys * direction[1], self.xs * direction[0])
        return at + reach.min(axis=1)[:, None, None], at + reach.max(axis=1)[:, None, None]

    def best(self, begins: Bools, ends: Bools) -> Found | None:
        """The way with the most room from where `begins` to where `ends` (n, ny, nx).

        None where either is nowhere, or when it was stopped.
        """
        if not begins.any() or not ends.any() or self.room.max() == np.inf:
            return None
        low, high = float(self.room.min()), float(min(self.room[begins].max(), self.room[ends].max()))
        for _ in range(HALVINGS):
            middle = (low + high) / 2
            low, high = (middle, high) if self._joined(middle, begins, ends) else (low, middle)
        return Found(low, self.slack, self._way(low, begins, ends))

    def _joined(self, least: float, begins: Bools, ends: Bools) -> bool:
        labels = self._labels(least)
        return bool(np.intersect1d(labels[begins & (labels > 0)], labels[ends & (labels > 0)]).size)

    def _labels(self, least: float) -> Ints:
        """Which points with so much room hang together (n, ny, nx), last heading with first; 0 for the others."""
        from scipy.ndimage import label
        from scipy.sparse import coo_matrix
        from scipy.sparse.csgraph import connected_components

        labels, count = label(self.room >= least, structure=NEIGHBOURS)
        pairs = []
        for dy in (-1, 0, 1):
            for dx in (-1, 0, 1):
                first, last = labels[0], _shifted(labels[-1], dy, dx)
                both = (first > 0) & (last > 0)
                pairs.append(np.stack([first[both], last[both]]))
        joined = np.hstack(pairs)
        links = coo_matrix((np.ones(joined.shape[1]), joined), shape=(count + 1, count + 1))
        _, merged = connected_components(links, directed=False)
        return np.where(labels > 0, merged[labels] + 1, 0)

    def _way(self, least: float, begins: Bools, ends: Bools) -> Floats:
        """The shortest chain of neighbours with so much room (m, 3), by layers outward from all beginnings."""
        open_at = self.room >= least
        size = np.array(open_at.shape)
        came = np.full(open_at.size, -1, dtype=np.int64)
        edge = np.flatnonzero((open_at & begins).ravel())
        came[edge] = edge
        goal = (open_at & ends).ravel()
        steps = _steps()
        while len(edge) and not goal[edge].any():
            at = np.stack(np.unravel_index(edge, open_at.shape))
            onward = at[:, :, None] + steps[:, None, :]
            onward[0] %= size[0]
            inside = ((onward[1:] >= 0) & (onward[1:] < size[1:, None, None])).all(axis=0)
            flat = np.ravel_multi_index(tuple(np.where(inside, onward, 0)), open_at.shape)
            fresh = inside & open_at.ravel()[flat] & (came[flat] < 0)
            found, first = np.unique(flat[fresh], return_index=True)
            came[found] = np.broadcast_to(edge[:, None], flat.shape)[fresh][first]
            edge = found
        reached = edge[goal[edge]]
        return self._traced(int(reached[0]), came, open_at.shape) if len(reached) else np.zeros((0, 3))

    def _traced(self, last: int, came: Ints, shape: tuple[int, ...]) -> Floats:
        chain = [last]
        while came[chain[-1]] != chain[-1]:
            chain.append(int(came[chain[-1]]))
        heading, row, column = np.unravel_index(np.array(chain[::-1]), shape)
        return np.stack([self.xs[column], self.ys[row], np.unwrap(self.headings[heading])], axis=1)


def _shifted(labels: Ints, dy: int, dx: int) -> Ints:
    """A plane of labels (ny, nx) moved by one or none each way, nothing coming in at the edges."""
    wide = np.pad(labels, 1)
    ny, nx = labels.shape
    return np.asarray(wide[1 - dy : 1 - dy + ny, 1 - dx : 1 - dx + nx])


def _steps() -> Ints:
    """The 26 neighbours (3, 26), those that move one thing alone first."""
    every = np.stack(np.meshgrid([-1, 0, 1], [-1, 0, 1], [-1, 0, 1])).reshape(3, -1)
    every = every[:, np.abs(every).sum(axis=0) > 0]
    return np.asarray(every[:, np.argsort(np.abs(every).sum(axis=0), kind="stable")], dtype=np.int64)


class _Sides:
    """An outline (k, 2), the normals of its edges (n, 2), and how far places (2, p) lie along them (n, p) [mm]."""

    def __init__(self, outline: Floats, places: Floats) -> None:
        self.outline = outline
        self.off = normals(outline)
        self.along = self.off @ places


def _apart(part: _Sides, wall: _Sides) -> Floats:
    """How far apart (p,) a part put at each place and a wall are, along the best of both's edge normals [mm]."""
    from_wall = (wall.off @ part.outline.T).min(axis=1) - (wall.off @ wall.outline.T).max(axis=1)
    from_part = (part.off @ wall.outline.T).min(axis=1) - (part.off @ part.outline.T).max(axis=1)
    one = (wall.along + from_wall[:, None]).max(axis=0)
    return np.asarray(np.maximum(one, (from_part[:, None] - part.along).max(axis=0)))
