"""A trimmed member as a set of points: inside or not, its box, and lines and points of its surface."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cached_property
from typing import Any

import numpy as np
from numpy.typing import NDArray

from fitwright.piece.body import Body
from fitwright.piece.extent import member_box
from fitwright.piece.model import Plane
from fitwright.piece.path import Arc, Path, Straight, Vector
from fitwright.piece.sections import outline_of
from fitwright.piece.trim import cope_distance, stops
from fitwright.stock import Angle, Section

Floats = NDArray[np.float64]

STATION_MM = 8.0
STATION_RAD = np.radians(6)
OUTLINE_POINTS = 24
SPARE_MM = 1.0
SIDE_MM = 1.0  # a shorter edge of an outline is a chord of a corner
RING_FINER = 3  # bends seen in steps of 2 degrees: 0.02 mm of a radius of 100


@dataclass(frozen=True, eq=False)
class Lines:
    """Lines along one straight of a member's outside: from starts (k, 3) along a direction (3,), lengths (k,) [mm]."""

    starts: Floats
    direction: Vector
    lengths: Floats


@dataclass(frozen=True, eq=False)
class Trimmed:
    """A member's body with the planes and copes (other members' bodies) that cut its two ends."""

    body: Body
    planes: tuple[tuple[Plane, ...], tuple[Plane, ...]]
    copes: tuple[tuple[Body, ...], tuple[Body, ...]]

    @cached_property
    def whole(self) -> Body:
        """The body made long enough to hold all the material, where a cut lets an end run on past its drawn point."""
        more = [float(self._stops(end, self.outline).max()) if self._is_cut(end) else 0.0 for end in (0, 1)]
        if max(more) <= 0:
            return self.body
        path = self.body.path
        vertices = path.vertices.astype(float).copy()
        for end, at in ((0, 0), (1, -1)):
            vertices[at] += (more[end] + SPARE_MM) * self.body.outward(end) if more[end] > 0 else 0.0
        return Body(Path(vertices, path.radii, path.closed, path.seam), self.body.frame, self.body.section)

    @cached_property
    def outline(self) -> Floats:
        """Points (k, 2) of the section's outline at which the surface is looked at."""
        outline = outline_of(_without_root(self.body.section), OUTLINE_POINTS)
        return outline if self.body.section.is_round else _with_middles(outline)

    @cached_property
    def box(self) -> tuple[Vector, Vector]:
        """Low and high corners (3,), (3,) [mm], exact."""
        return member_box(self.body, ((self.planes[0], self.copes[0]), (self.planes[1], self.copes[1])))

    def depth(self, points: Floats, within: float = np.inf) -> Floats:
        """How deep points (k, 3) lie inside the trimmed member (k,); negative outside, where it may fall short [mm].

        within: how far outside is of interest; farther off it may be -inf.
        """
        last = len(self.body.path.segments) - 1
        near = self.whole.near(points, within) if last and within < np.inf else range(last + 1)
        inside = {k: -self.whole.segment_distance(k, points) for k in near}
        for end, k in ((0, 0), (1, last)):
            if k in inside and self._is_cut(end):
                inside[k] = np.minimum(inside[k], self._kept(points, end))
        found = list(inside.values()) or [np.full(len(points), -np.inf)]
        return found[0] if len(found) == 1 else np.asarray(np.max(found, axis=0))

    @cached_property
    def worked_out(self) -> dict[object, Any]:
        """What others have worked out of it once and want again, by a name of their own."""
        return {}

    def at_end(self, point: Vector, within: float) -> bool:
        """Whether a point (3,) of the surface lies within a distance [mm] of where an end is cut."""
        for end in (0, 1) if not self.body.path.closed else ():
            square = float((self.body.point_at(end) - point) @ self.body.outward(end))
            if (float(self._kept(point[None], end)[0]) if self._is_cut(end) else square) < within:
                return True
        return False

    def kept(self, points: Floats) -> Floats:
        """How far inside every cut points (k, 3) lie (k,), infinite where there is none [mm]."""
        found = [self._kept(points, end) for end in (0, 1) if self._is_cut(end)]
        return np.asarray(np.min(found, axis=0)) if found else np.full(len(points), np.inf)

    def _is_cut(self, end: int) -> bool:
        return bool(self.planes[end] or self.copes[end])

    def _kept(self, points: Floats, end: int) -> Floats:
        """How far inside all the cuts of an end points (k, 3) lie (k,) [mm]; copes count in its half only."""
        kept = [(plane.point - points) @ plane.normal for plane in self.planes[end]]
        if self.copes[end]:
            segment = self.body.path.segments[0 if end == 0 else -1]
            far = (points - self.body.point_at(end)) @ self.body.outward(end) < -segment.length / 2
            gaps = [cope_distance(self.body, end, other, points) for other in self.copes[end]]
            kept += [np.where(far, np.inf, gap) for gap in gaps]
        return np.asarray(np.min(kept, axis=0))

    def _stops(self, end: int, uv: Floats) -> Floats:
        return stops(self.body, end, uv, self.planes[end], self.copes[end])

    @cached_property
    def shortest(self) -> tuple[float, float]:
        """Where the material begins to be missing at either end, beyond its drawn point [mm]."""
        near = [float(self._stops(end, self.outline).min()) if self._is_cut(end) else 0.0 for end in (0, 1)]
        return near[0], near[1]

    @cached_property
    def lines(self) -> tuple[Lines | None, ...]:
        """The outline's lines along each segment, from cut to cut; None for a bend."""
        return tuple(self._lines(k) for k in range(len(self.body.path.segments)))

    def _lines(self, k: int) -> Lines | None:
        segment = self.body.path.segments[k]
        if not isinstance(segment, Straight):
            return None
        starts = segment.start + self.outline @ self.body.frames[k]
        lengths = np.full(len(starts), segment.length)
        if self.body.path.closed:
            return Lines(starts, segment.direction, lengths)
        if k == 0 and self._is_cut(0):
            stop = self._stops(0, self.outline)
            starts, lengths = starts - stop[:, None] * segment.direction, lengths + stop
        if k == len(self.body.path.segments) - 1 and self._is_cut(1):
            lengths = lengths + self._stops(1, self.outline)
        return Lines(starts, segment.direction, np.maximum(lengths, 0.0))

    @cached_property
    def bends(self) -> tuple[Floats | None, ...]:
        """Points (k, 3) of the outside of each bend, every few millimetres along and round; None for a straight."""
        return tuple(
            self.body.place(k, np.linspace(0, 1, _steps(segment) + 1), self.outline).reshape(-1, 3)
            if isinstance(segment, Arc)
            else None
            for k, segment in enumerate(self.body.path.segments)
        )

    def rings(self, points: int) -> list[Floats]:
        """By segment, the outline of so many points (s, m, 3) at both ends of a straight, or all along a bend [mm]."""
        outline, segments = outline_of(self.body.section, points), self.body.path.segments
        parts = [np.linspace(0, 1, RING_FINER * _steps(s) + 1 if isinstance(s, Arc) else 2) for s in segments]
        rings = [self.body.place(k, part, outline) for k, part in enumerate(parts)]
        if not self.body.path.closed:
            for end, at in ((0, 0), (1, -1)):
                if self._is_cut(end):
                    rings[at][at] += self._stops(end, outline)[:, None] * self.body.outward(end)
        return rings


def _without_root(section: Section) -> Section:
    return replace(section, root_radius=0.0) if isinstance(section, Angle) else section


def _with_middles(outline: Floats) -> Floats:
    """The outline (k, 2) with the middle of each side: of two bars crossed in one plane the corners only touch."""
    nexts = np.roll(outline, -1, axis=0)
    sides = np.hypot(*(nexts - outline).T) > SIDE_MM
    return np.insert(outline, np.flatnonzero(sides) + 1, ((outline + nexts) / 2)[sides], axis=0)


def _steps(arc: Arc) -> int:
    return int(np.clip(np.ceil(max(arc.angle / STATION_RAD, arc.length / (4 * STATION_MM))), 2, 2000))
