"""The line that a member follows: straights and arcs through vertices with a bend radius at each corner."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from fitwright.piece.vectors import cross, size
from fitwright.piece.wording import ToldError

Vector = NDArray[np.float64]

SAME_POINT_MM = 1e-6
STRAIGHT_RAD = 1e-7


class PathError(ToldError):
    """A path that cannot be followed: repeated points, a fold back, or bends that overlap on a leg."""


class BendOverlap(PathError):
    """Two bends ask for more straight than lies between them."""


@dataclass(frozen=True, eq=False)
class Straight:
    """A straight run from `start` to `end`, both (3,) [mm]."""

    start: Vector
    end: Vector

    @cached_property
    def length(self) -> float:
        """Length [mm]."""
        return size(self.end - self.start)

    @cached_property
    def direction(self) -> Vector:
        """Unit vector along the run (3,)."""
        unit: Vector = (self.end - self.start) / self.length
        return unit


@dataclass(frozen=True, eq=False)
class Arc:
    """A bend: `angle` [rad] about `axis` (3,) through `centre` (3,), from `start` to `end` [mm]."""

    centre: Vector
    axis: Vector
    start: Vector
    end: Vector
    radius: float
    angle: float
    vertex: int

    @cached_property
    def length(self) -> float:
        """Length along the centreline [mm]."""
        return self.radius * self.angle

    @cached_property
    def spoke(self) -> Vector:
        """Unit vector (3,) from the centre to the start."""
        unit: Vector = (self.start - self.centre) / self.radius
        return unit

    @cached_property
    def onward(self) -> Vector:
        """Unit tangent (3,) at the start."""
        return cross(self.axis, self.spoke)

    def at(self, turned: NDArray[np.float64]) -> Vector:
        """Points (k, 3) at the angles `turned` (k,) [rad] from the start."""
        round_trip = np.cos(turned)[:, None] * self.spoke + np.sin(turned)[:, None] * self.onward
        points: Vector = self.centre + self.radius * round_trip
        return points

    def tangent(self, turned: NDArray[np.float64]) -> Vector:
        """Unit tangents (k, 3) at the angles `turned` (k,) [rad] from the start."""
        tangents: Vector = -np.sin(turned)[:, None] * self.spoke + np.cos(turned)[:, None] * self.onward
        return tangents


Segment = Straight | Arc


@dataclass(frozen=True, eq=False)
class Path:
    """Vertices (n, 3) [mm] with a bend radius (n,) [mm] at each; the first and last radius of an open path are 0.

    A closed path returns from its last vertex to its first; it is walked from the middle of its first leg
    (where its butt lies), or from `seam`, a fraction of that leg.

    Raises PathError for fewer than two points, repeated points or a leg that folds back on the one before;
    BendOverlap when the tangent lengths R tan(angle / 2) of two bends exceed the leg between them.
    """

    vertices: Vector
    radii: NDArray[np.float64]
    closed: bool = False
    seam: float = 0.5

    def __post_init__(self) -> None:
        _check_points(self.vertices, self.closed)
        _check_bends(self)

    @cached_property
    def legs(self) -> Vector:
        """Leg vectors (n - 1 or n, 3) [mm] from each vertex to the next."""
        if self.closed:
            return np.roll(self.vertices, -1, axis=0) - self.vertices
        return np.diff(self.vertices, axis=0)

    @cached_property
    def directions(self) -> Vector:
        """Unit vectors of the legs, same shape as `legs`."""
        units: Vector = self.legs / np.linalg.norm(self.legs, axis=1)[:, None]
        return units

    @cached_property
    def turns(self) -> NDArray[np.float64]:
        """Bend angle at each vertex (n,) [rad]; 0 at the ends of an open path."""
        count = len(self.vertices)
        turns = np.zeros(count)
        for k in self.corners:
            before, after = self.directions[k - 1], self.directions[k % len(self.directions)]
            turns[k] = np.arctan2(size(cross(before, after)), before @ after)
        return turns

    @property
    def corners(self) -> range:
        """Indices of the vertices where a bend can be."""
        return range(len(self.vertices)) if self.closed else range(1, len(self.vertices) - 1)

    @cached_property
    def setbacks(self) -> NDArray[np.float64]:
        """Tangent length R tan(angle / 2) at each vertex (n,) [mm]."""
        setbacks: NDArray[np.float64] = self.radii * np.tan(self.turns / 2)
        return setbacks

    @cached_property
    def segments(self) -> tuple[Segment, ...]:
        """Straights and arcs in order of travel; straights of zero length are left out."""
        return tuple(_walk(self))

    @cached_property
    def length(self) -> float:
        """Length along the centreline, bends included [mm]."""
        return sum(segment.length for segment in self.segments)

    @property
    def start(self) -> Vector:
        """The first point (3,) [mm]."""
        return self.segments[0].start

    @property
    def end(self) -> Vector:
        """The last point (3,) [mm]; the first again when closed."""
        return self.segments[-1].end

    @property
    def bent(self) -> bool:
        """Whether any bend lies on the path."""
        return any(isinstance(segment, Arc) for segment in self.segments)


def straight_path(start: Vector, end: Vector) -> Path:
    """The path of a straight member from `start` to `end`, both (3,) [mm]."""
    return Path(np.array([start, end], dtype=float), np.zeros(2))


def _check_points(vertices: Vector, closed: bool) -> None:
    if len(vertices) < (3 if closed else 2):
        raise PathError(f"a {'closed' if closed else 'open'} path needs at least {3 if closed else 2} points")
    legs = np.roll(vertices, -1, axis=0) - vertices if closed else np.diff(vertices, axis=0)
    lengths = np.linalg.norm(legs, axis=1)
    if (lengths < SAME_POINT_MM).any():
        at = int(np.argmin(lengths))
        raise PathError(
            f"points {at + 1} and {(at + 1) % len(vertices) + 1} of the path are the same, {{point}}: take one out",
            point=vertices[at],
        )


def _check_bends(path: Path) -> None:
    for k in path.corners:
        if path.turns[k] > np.pi - 1e-3:
            raise PathError(
                f"the path folds straight back on itself at point {k + 1}, {{point}}: put a point on either side",
                point=path.vertices[k],
            )
    lengths = np.linalg.norm(path.legs, axis=1)
    for k, length in enumerate(lengths):
        after = (k + 1) % len(path.vertices)
        needed = path.setbacks[k] + path.setbacks[after]
        if needed > length + 1e-6:
            raise _overlap(path, k, after, float(length), float(needed))


def _overlap(path: Path, before: int, after: int, length: float, needed: float) -> BendOverlap:
    return BendOverlap(
        f"the leg from point {before + 1} to point {after + 1}, at {{point}}, is {{length}} long and its bends "
        "take {needed} of it: lengthen the leg by {short} or bend to a smaller radius than {radius}",
        point=path.vertices[after],
        length=length,
        needed=needed,
        short=needed - length,
        radius=float(max(path.radii[before], path.radii[after])),
    )


def _arc(path: Path, k: int) -> Arc | None:
    """The bend at vertex k; None where the path runs straight on or the corner is sharp."""
    turn, radius = float(path.turns[k]), float(path.radii[k])
    if turn < STRAIGHT_RAD or radius <= 0:
        return None
    before, after = path.directions[k - 1], path.directions[k % len(path.directions)]
    axis = cross(before, after)
    axis /= size(axis)
    start = path.vertices[k] - before * path.setbacks[k]
    end = path.vertices[k] + after * path.setbacks[k]
    return Arc(start + cross(axis, before) * radius, axis, start, end, radius, turn, k)


def _walk(path: Path) -> list[Segment]:
    segments: list[Segment] = []
    _, last, at = _ends(path)
    order = [*range(1, len(path.vertices)), 0] if path.closed else list(path.corners)
    for k in order:
        arc = _arc(path, k)
        to = arc.start if arc else path.vertices[k]
        if size(to - at) > SAME_POINT_MM:
            segments.append(Straight(at, to))
        if arc:
            segments.append(arc)
        at = arc.end if arc else to
    if size(last - at) > SAME_POINT_MM:
        segments.append(Straight(at, last))
    return segments


def _ends(path: Path) -> tuple[Vector, Vector, Vector]:
    if not path.closed:
        return path.vertices[0], path.vertices[-1], path.vertices[0]
    leave = path.vertices[0] + path.directions[0] * path.setbacks[0]
    arrive = path.vertices[1] - path.directions[0] * path.setbacks[1]
    seam = leave + (arrive - leave) * path.seam
    return seam, seam, seam
