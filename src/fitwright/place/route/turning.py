"""Getting a convex outline round the corner of two passages: exact, by its support function.

In the plane of the turn one comes by the first passage along +y, its outer wall at x = 0, and goes on to the right.
At every heading the outline is best off touching both outer walls: moving it there from anywhere else only takes it
away from the inner corner. So the question has one unknown, the heading, and the answer is exact at each.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from fitwright.place.route.convex import directions, supports

Floats = NDArray[np.float64]
Bools = NDArray[np.bool_]

STEPS = 720  # headings in a full turn: every half degree
FINE_STEPS = 3600
HALVINGS = 40


@dataclass(frozen=True, eq=False)
class Turn:
    """An outline (k, 2) [mm] at the corner of passages `first` and `second` wide [mm] that turns by `angle` [rad].

    Headings count counterclockwise. Room is what is left on each side when it is shared out evenly [mm]; less than
    nothing where it does not fit. It falls short of the true room by at most `error`.
    Holds for walls that run on straight, and an outline that is convex.
    """

    outline: Floats
    first: float
    second: float
    angle: float
    steps: int = STEPS

    @cached_property
    def headings(self) -> Floats:
        """Headings looked at (n,) [rad]."""
        return np.asarray(np.arange(self.steps) * (2 * np.pi / self.steps))

    @cached_property
    def error(self) -> float:
        """The most by which the room may be told too small [mm]: the farthest corner's way in one step."""
        return float(np.hypot(*self.outline.T).max()) * 2 * np.pi / self.steps

    @cached_property
    def in_first(self) -> Floats:
        """Room (n,) on each side in the first passage alone [mm]."""
        return (self.first - self._reach(np.pi) - self._reach(0.0)) / 2

    @cached_property
    def in_second(self) -> Floats:
        """Room (n,) on each side in the second passage alone [mm]."""
        inward = self._inward
        return (self.second - self._reach(inward + np.pi) - self._reach(inward)) / 2

    @cached_property
    def room(self) -> Floats:
        """Room (n,) at the corner itself [mm].

        The inner corner is kept off by a line with normal m = l n1 + u n2 between the inward normals n1, n2 of the two
        outer walls; what is left along m is shared between both walls and the corner.
        """
        left, parts = self._left
        return np.asarray((left / (1 + parts)).max(axis=1))

    @cached_property
    def inmost(self) -> Floats:
        """How far (n,) it can be kept from both outer walls, when it may touch the inner corner [mm]."""
        left, parts = self._left
        return np.asarray((left / parts).max(axis=1))

    @cached_property
    def _left(self) -> tuple[Floats, Floats]:
        """What is left (n, m) along each line past the inner corner, touching both outer walls, and its parts (m,)."""
        angles = self._between
        shares = np.linalg.solve(directions(np.array([0.0, self._inward])).T, directions(angles).T)  # (2, m)
        shares = np.clip(shares, 0.0, None)
        reach = self._table[(self._index(angles)[None, :] - np.arange(self.steps)[:, None]) % self.steps]
        left = np.array([self.first, self.second]) @ shares - reach - self._to_walls.T @ shares
        return left, shares.sum(axis=0)

    def best(self, begins: Bools | None = None, ends: Bools | None = None) -> Run:
        """The run of headings with the most room from one passage to the other.

        begins, ends: (n,) the headings at which it may come and go; any where not given.
        """
        first = self.in_first if begins is None else np.where(begins, self.in_first, -np.inf)
        second = self.in_second if ends is None else np.where(ends, self.in_second, -np.inf)
        low = float(min(self.room.min(), np.where(np.isfinite(first), first, np.inf).min())) - self.first - self.second
        high = float(min(first.max(), second.max(), self.room.max()))
        if _run(self.room, first, second, high) is None:
            for _ in range(HALVINGS):
                middle = (low + high) / 2
                low, high = (middle, high) if _run(self.room, first, second, middle) is not None else (low, middle)
            high = low
        found = _run(self.room, first, second, high)
        assert found is not None, "at the lowest room every heading is open"
        return Run(high, found)

    def place(self, index: int, room: float) -> Floats:
        """Where the outline's origin stands (2,) at a heading, so far from both outer walls [mm]."""
        return np.asarray(self._from_walls @ (self._to_walls[:, index] + room))

    @cached_property
    def _to_walls(self) -> Floats:
        """How far its middle stands from both outer walls (2, n) when it touches them [mm]."""
        return np.stack([self._reach(np.pi), self._reach(self._inward + np.pi)])

    @cached_property
    def _from_walls(self) -> Floats:
        """From distances to both outer walls to a place (2, 2)."""
        return np.asarray(np.linalg.inv(directions(np.array([0.0, self._inward]))))

    @property
    def onward(self) -> Floats:
        """The direction (2,) of the second passage."""
        return np.array([np.sin(self.angle), np.cos(self.angle)])

    @property
    def _inward(self) -> float:
        """Direction of the second outer wall's inward normal [rad]; the first one's is 0."""
        return -self.angle

    @cached_property
    def _between(self) -> Floats:
        """Directions between the two inward normals [rad], on the grid of headings, both ends with them."""
        count = round(self.angle / (2 * np.pi) * self.steps)
        return -np.linspace(0.0, self.angle, max(count, 1) + 1)

    @property
    def inner(self) -> Floats:
        """The inner corner (2,) [mm]; the outer one is at the origin."""
        return np.asarray(self._from_walls @ np.array([self.first, self.second]))

    @cached_property
    def _table(self) -> Floats:
        return supports(self.outline, self.headings)

    def _index(self, angles: Floats) -> NDArray[np.int64]:
        return np.asarray(np.rint(angles / (2 * np.pi) * self.steps).astype(np.int64))

    def _reach(self, angle: float) -> Floats:
        """How far it reaches (n,) in one direction, at every heading [mm]; exact in that direction."""
        return supports(self.outline, angle - self.headings)


@dataclass(frozen=True, eq=False)
class Run:
    """Headings in order, as indices, from the first passage into the second; `room`: the least along it [mm]."""

    room: float
    indices: NDArray[np.int64]


def _run(room: Floats, first: Floats, second: Floats, least: float) -> NDArray[np.int64] | None:
    """The shortest run of neighbouring headings with at least so much room, from one in `first` to one in `second`."""
    begins, ends = np.flatnonzero(first >= least), np.flatnonzero(second >= least)
    if not len(begins) or not len(ends):
        return None
    both = np.intersect1d(begins, ends)
    if len(both):
        return both[:1]
    found = [one for way in (1, -1) if (one := _one_way(room >= least, begins, ends, way)) is not None]
    return min(found, key=len, default=None)


def _one_way(open_at: Bools, begins: NDArray[np.int64], ends: NDArray[np.int64], way: int) -> NDArray[np.int64] | None:
    """The shortest open run from a beginning to an end, counting up (1) or down (-1) round the circle."""
    count = len(open_at)
    to_end = _steps_to(np.isin(np.arange(count), ends), way)
    to_shut = _steps_to(~open_at, way)
    good = begins[to_end[begins] < to_shut[begins]]
    if not len(good):
        return None
    at = int(good[np.argmin(to_end[good])])
    return np.asarray((at + way * np.arange(int(to_end[at]) + 1)) % count)


def _steps_to(marked: Bools, way: int) -> NDArray[np.int64]:
    """Steps (n,) round the circle from each place to the nearest marked one, itself included; 2 n where none is."""
    count = len(marked)
    there = marked[::way]
    at = np.where(np.tile(there, 2), np.arange(2 * count), 4 * count)
    nearest = np.minimum.accumulate(at[::-1])[::-1][:count]
    return np.minimum(nearest - np.arange(count), 2 * count)[::way]
