"""The untrimmed solid of a member: a section carried along a path, and how far any point is from it."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from fitwright.piece.path import Arc, Path, Segment, Straight, Vector
from fitwright.piece.sections import distance_of
from fitwright.stock import Section

Floats = NDArray[np.float64]


def rotated(vectors: Floats, axis: Vector, angles: Floats | float) -> Floats:
    """Vectors (..., 3) turned about a unit axis (3,) by angles [rad] (broadcast over the leading shape).

    Source: Rodrigues' rotation formula.
    """
    cos, sin = np.cos(angles)[..., None], np.sin(angles)[..., None]
    along = (vectors @ axis)[..., None] * axis
    x, y, z = axis.tolist()
    over = np.array([[0.0, z, -y], [-z, 0.0, x], [y, -x, 0.0]])
    turned: Floats = vectors * cos + (vectors @ over) * sin + along * (1 - cos)
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
        return self._outwards[end]

    @cached_property
    def _outwards(self) -> tuple[Vector, Vector]:
        first, last = self.path.segments[0], self.path.segments[-1]
        return -_direction(first, at_start=True), _direction(last, at_start=False)

    @cached_property
    def reach(self) -> float:
        """Largest distance of the outline from the path [mm]."""
        u0, u1, v0, v1 = self.section.extents
        return u1 if self.section.is_round else float(np.hypot(max(-u0, u1), max(-v0, v1)))

    @cached_property
    def boxes(self) -> Floats:
        """Low and high corners (m, 2, 3) of boxes that hold the untrimmed solid segment by segment [mm]."""
        return np.array([_box(segment, self.reach) for segment in self.path.segments])

    @cached_property
    def box(self) -> tuple[Vector, Vector]:
        """Low and high corners (3,), (3,) of a box that holds the untrimmed solid [mm]."""
        return self.boxes[:, 0].min(axis=0), self.boxes[:, 1].max(axis=0)

    @cached_property
    def nearest_known(self) -> dict[bytes, Segment]:
        """The segment nearest to each point that was asked for: ends are held against the same members many times."""
        return {}

    def distance(self, points: Floats) -> Floats:
        """Distance (k,) from points (k, 3) to the solid, negative inside [mm]; the bore counts as inside."""
        found = self.distances(points)
        return found[0] if len(found) == 1 else np.asarray(np.min(found, axis=0))

    def distances(self, points: Floats) -> list[Floats]:
        """The same to the solid along each segment by itself (k,) [mm]."""
        return [self.segment_distance(k, points) for k in range(len(self.frames))]

    def segment_distance(self, segment: int, points: Floats) -> Floats:
        """The same to the solid along one segment (k,) [mm]."""
        whole = self.path.segments[segment]
        return _segment_distance(whole, self.frames[segment], self.section, points, self.opens(segment))

    def near(self, points: Floats, within: float) -> list[int]:
        """The segments of which any of points (k, 3) may come within a distance [mm]; a single one in any case."""
        if len(self.frames) == 1:
            return [0]
        low, high = points.min(axis=0) - within, points.max(axis=0) + within
        met = ((self.boxes[:, 0] <= high) & (self.boxes[:, 1] >= low)).all(axis=1)
        return [k for k, is_met in enumerate(met.tolist()) if is_met]

    def gap(self, points: Floats, within: float) -> float:
        """The least distance of points (k, 3) from the solid where it is less than `within`; else inf [mm]."""
        return min((float(self.segment_distance(k, points).min()) for k in self.near(points, within)), default=np.inf)

    def opens(self, segment: int) -> tuple[bool, bool]:
        """Whether a segment's start and end are ends of the member; inside, the seam to the next is no surface."""
        return segment == 0 and not self.path.closed, segment == len(self.frames) - 1 and not self.path.closed

    def place(self, segment: int, part: Floats, uv: Floats) -> Floats:
        """Points (k, m, 3) of the section points uv (m, 2) at fractions `part` (k,) of a segment."""
        piece, frame = self.path.segments[segment], self.frames[segment]
        offsets = uv @ frame
        origins = sampled(piece, part)
        if isinstance(piece, Straight):
            return np.asarray(origins[:, None, :] + offsets[None, :, :])
        turned = rotated(
            np.broadcast_to(offsets, (len(part), *offsets.shape)), piece.axis, (part * piece.angle)[:, None]
        )
        return np.asarray(origins[:, None, :] + turned)


def sampled(segment: Segment, part: Floats) -> Floats:
    """Points (k, 3) at fractions `part` (k,) of a segment."""
    if isinstance(segment, Straight):
        return np.asarray(segment.start + part[:, None] * (segment.end - segment.start))
    return segment.at(part * segment.angle)


def _box(segment: Segment, reach: float) -> tuple[Vector, Vector]:
    straight = isinstance(segment, Straight)
    points = np.array([segment.start, segment.end]) if straight else sampled(segment, np.linspace(0, 1, 9))
    slack = reach if isinstance(segment, Straight) else reach + segment.radius * (1 - np.cos(segment.angle / 16))
    return points.min(axis=0) - slack, points.max(axis=0) + slack


def _direction(segment: Segment, *, at_start: bool) -> Vector:
    if isinstance(segment, Straight):
        return segment.direction
    return np.asarray(segment.tangent(np.array([0.0 if at_start else segment.angle]))[0])


def _segment_distance(
    segment: Segment, frame: Floats, section: Section, points: Floats, opens: tuple[bool, bool]
) -> Floats:
    if isinstance(segment, Straight):
        local, beyond = _straight_local(segment, frame, points, opens)
    else:
        local, beyond = _arc_local(segment, frame, points)
    across = distance_of(section, local)
    inside = np.maximum(across, beyond)
    # right beside or right before the material the greater of the two is the distance, off an edge both count
    off = np.minimum(across, beyond) > 0
    return np.where(off, np.hypot(across, beyond), inside) if off.any() else inside


def _straight_local(
    segment: Straight, frame: Floats, points: Floats, opens: tuple[bool, bool]
) -> tuple[Floats, Floats]:
    offset = points - segment.start
    along = offset @ segment.direction
    before, after = -along, along - segment.length
    if not opens[0]:
        before[before <= 0] = -np.inf
    if not opens[1]:
        after[after <= 0] = -np.inf
    return offset @ frame.T, np.maximum(before, after)


def _arc_local(segment: Arc, frame: Floats, points: Floats) -> tuple[Floats, Floats]:
    offset = points - segment.centre
    turned = np.arctan2(offset @ segment.onward, offset @ segment.spoke)
    # Points behind the arc belong to whichever end is nearer round the circle.
    middle = segment.angle / 2
    turned = (turned - middle + np.pi) % (2 * np.pi) - np.pi + middle
    inside = np.clip(turned, 0, segment.angle)
    back = rotated(offset, segment.axis, -inside) + segment.centre - segment.start
    along = back @ segment.onward
    beyond = np.where(turned > inside, along, np.where(turned < inside, -along, -segment.radius * segment.angle))
    return back @ frame.T, beyond
