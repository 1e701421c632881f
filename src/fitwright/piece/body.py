"""The untrimmed solid of a member: a section carried along a path, and how far any point is from it."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from fitwright.piece.path import Arc, Path, Segment, Straight, Vector
from fitwright.stock import Section

Floats = NDArray[np.float64]


def rotated(vectors: Floats, axis: Vector, angles: Floats | float) -> Floats:
    """Vectors (..., 3) turned about a unit axis (3,) by angles [rad] (broadcast over the leading shape).

    Source: Rodrigues' rotation formula.
    """
    cos, sin = np.cos(angles)[..., None], np.sin(angles)[..., None]
    along = (vectors @ axis)[..., None] * axis
    turned: Floats = vectors * cos + np.cross(axis, vectors) * sin + along * (1 - cos)
    return turned


@dataclass(frozen=True, eq=False)
class Body:
    """A section along a path; frame (2, 3) holds the directions of the section's u and v at the start.

    The frame is carried along: straights keep it, each bend turns it about the bend's axis. It may be left-handed
    (a mirrored part). Ends are square at the path's ends.
    """

    path: Path
    frame: Floats
    section: Section

    @cached_property
    def frames(self) -> tuple[Floats, ...]:
        """The frame (2, 3) at the start of each segment."""
        frames, frame = [], self.frame
        for segment in self.path.segments:
            frames.append(frame)
            if isinstance(segment, Arc):
                frame = rotated(frame, segment.axis, segment.angle)
        return tuple(frames)

    @cached_property
    def end_frame(self) -> Floats:
        """The frame (2, 3) at the end of the path."""
        last = self.path.segments[-1]
        frame = self.frames[-1]
        return rotated(frame, last.axis, last.angle) if isinstance(last, Arc) else frame

    def frame_at(self, end: int) -> Floats:
        """The frame (2, 3) at end 0 or 1."""
        return self.frame if end == 0 else self.end_frame

    def point_at(self, end: int) -> Vector:
        """The path's point (3,) at end 0 or 1 [mm]."""
        return self.path.start if end == 0 else self.path.end

    def outward(self, end: int) -> Vector:
        """Unit vector (3,) leaving the member at end 0 or 1."""
        if end == 0:
            return -_direction(self.path.segments[0], at_start=True)
        return _direction(self.path.segments[-1], at_start=False)

    @cached_property
    def reach(self) -> float:
        """Largest distance of the outline from the path [mm]."""
        u0, u1, v0, v1 = self.section.extents
        return float(np.hypot(max(-u0, u1), max(-v0, v1)))

    @cached_property
    def box(self) -> tuple[Vector, Vector]:
        """Low and high corners (3,), (3,) of a box that holds the untrimmed solid [mm]."""
        points = np.vstack([sampled(segment, np.linspace(0, 1, 9)) for segment in self.path.segments])
        return points.min(axis=0) - self.reach, points.max(axis=0) + self.reach

    def distance(self, points: Floats) -> Floats:
        """Distance (k,) from points (k, 3) to the solid, negative inside [mm]; the bore counts as inside."""
        best = np.full(len(points), np.inf)
        for segment, frame in zip(self.path.segments, self.frames, strict=True):
            best = np.minimum(best, _segment_distance(segment, frame, self.section, points))
        return best

    def place(self, segment: int, part: Floats, uv: Floats) -> Floats:
        """Points (k, m, 3) of the section points uv (m, 2) at fractions `part` (k,) of a segment."""
        piece, frame = self.path.segments[segment], self.frames[segment]
        offsets = uv @ frame
        origins = sampled(piece, part)
        if isinstance(piece, Straight):
            return np.asarray(origins[:, None, :] + offsets[None, :, :])
        turned = rotated(np.broadcast_to(offsets, (len(part), *offsets.shape)), piece.axis, (part * piece.angle)[:, None])
        return np.asarray(origins[:, None, :] + turned)


def sampled(segment: Segment, part: Floats) -> Floats:
    """Points (k, 3) at fractions `part` (k,) of a segment."""
    if isinstance(segment, Straight):
        return np.asarray(segment.start + part[:, None] * (segment.end - segment.start))
    return segment.at(part * segment.angle)


def _direction(segment: Segment, *, at_start: bool) -> Vector:
    if isinstance(segment, Straight):
        return segment.direction
    return np.asarray(segment.tangent(np.array([0.0 if at_start else segment.angle]))[0])


def _segment_distance(segment: Segment, frame: Floats, section: Section, points: Floats) -> Floats:
    local, beyond = _straight_local(segment, frame, points) if isinstance(segment, Straight) else _arc_local(
        segment, frame, points
    )
    across = section.distance(local)
    outside = np.hypot(np.maximum(across, 0), np.maximum(beyond, 0))
    return np.asarray(np.where((across > 0) | (beyond > 0), outside, np.maximum(across, beyond)))


def _straight_local(segment: Straight, frame: Floats, points: Floats) -> tuple[Floats, Floats]:
    offset = points - segment.start
    along = offset @ segment.direction
    return offset @ frame.T, np.maximum(-along, along - segment.length)


def _arc_local(segment: Arc, frame: Floats, points: Floats) -> tuple[Floats, Floats]:
    spoke = (segment.start - segment.centre) / segment.radius
    offset = points - segment.centre
    turned = np.arctan2(offset @ np.cross(segment.axis, spoke), offset @ spoke)
    # Points behind the arc belong to whichever end is nearer round the circle.
    middle = segment.angle / 2
    turned = (turned - middle + np.pi) % (2 * np.pi) - np.pi + middle
    inside = np.clip(turned, 0, segment.angle)
    back = rotated(offset, segment.axis, -inside) + segment.centre - segment.start
    tangent = np.cross(segment.axis, spoke)
    along = back @ tangent
    beyond = np.where(turned > inside, along, np.where(turned < inside, -along, -segment.radius * segment.angle))
    return back @ frame.T, beyond
