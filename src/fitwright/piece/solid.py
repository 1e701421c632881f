"""A trimmed member as a set of points: inside or not, and samples of its surface and of its material."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from fitwright.piece.body import Body
from fitwright.piece.model import Plane
from fitwright.piece.path import Arc
from fitwright.piece.trim import stops

Floats = NDArray[np.float64]

STATION_MM = 8.0
STATION_RAD = np.radians(6)
OUTLINE_POINTS = 24


@dataclass(frozen=True, eq=False)
class Trimmed:
    """A member's body with the planes and copes (other members' bodies) that cut its two ends."""

    body: Body
    planes: tuple[tuple[Plane, ...], tuple[Plane, ...]]
    copes: tuple[tuple[Body, ...], tuple[Body, ...]]

    def depth(self, points: Floats) -> Floats:
        """How deep points (k, 3) lie inside the trimmed member (k,); negative outside [mm]."""
        inside = -self.body.distance(points)
        for end in (0, 1):
            for plane in self.planes[end]:
                near = self._near_end(points, end)
                inside = np.where(near, np.minimum(inside, (plane.point - points) @ plane.normal), inside)
            for other in self.copes[end]:
                inside = np.minimum(inside, other.distance(points))
        return inside

    def _near_end(self, points: Floats, end: int) -> NDArray[np.bool_]:
        """Points nearer to this end than the middle of the path: only those can be cut off by it."""
        point, outward = self.body.point_at(end), self.body.outward(end)
        segment = self.body.path.segments[0 if end == 0 else -1]
        return np.asarray((points - point) @ outward > -segment.length / 2)

    @cached_property
    def surface(self) -> Floats:
        """Points (k, 3) of the outside, every few millimetres along and round, the cut ends included."""
        outline = self.body.section.outline(OUTLINE_POINTS)
        return np.vstack([self._stations(k, outline) for k in range(len(self.body.path.segments))])

    def _stations(self, k: int, outline: Floats) -> Floats:
        segment = self.body.path.segments[k]
        last = len(self.body.path.segments) - 1
        steps = segment.angle / STATION_RAD if isinstance(segment, Arc) else segment.length / STATION_MM
        part = np.linspace(0, 1, int(np.clip(np.ceil(steps), 2, 2000)) + 1)
        points = self.body.place(k, part, outline)
        if isinstance(segment, Arc):
            return points.reshape(-1, 3)
        for end, at in ((0, 0), (1, last)):
            if k == at:
                points = self._kept(points, end, outline)
        return points.reshape(-1, 3)

    def _kept(self, points: Floats, end: int, outline: Floats) -> Floats:
        """Stations (s, m, 3) with those beyond the cut moved back to it."""
        if not self.planes[end] and not self.copes[end]:
            return points
        stop = stops(self.body, end, outline, self.planes[end], self.copes[end])
        outward = self.body.outward(end)
        beyond = (points - self.body.point_at(end)) @ outward
        return np.asarray(points - np.maximum(beyond - stop[None, :], 0)[..., None] * outward)

    @cached_property
    def box(self) -> tuple[Floats, Floats]:
        """Low and high corners (3,), (3,) of the surface samples [mm]."""
        return self.surface.min(axis=0), self.surface.max(axis=0)
