"""The working line of a member: where its beam elements run, with the directions of its section."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from fitwright.mechanics.model import Floats
from fitwright.piece.model import Member
from fitwright.piece.path import Arc, Segment, Straight
from fitwright.piece.trim import segment_gap, stops, turned_to

CHORDS_IN_RIGHT_ANGLE = 8


@dataclass(frozen=True, eq=False)
class WorkingLine:
    """The line of a member's centroid, by distance s along the path of the section's origin [mm].

    For angle the centroid lies beside the heel on which the path runs; for all else the two lines are one. starts:
    (segments + 1,) s at the start of each segment, and at the end. first, last: s of the two ends of the material on
    the centroid line, beyond the drawn ends where negative or above the path's length.
    """

    member: Member
    starts: Floats
    first: float
    last: float

    @property
    def segments(self) -> tuple[Segment, ...]:
        """Straights and arcs in order of travel."""
        return self.member.path.segments

    @property
    def closed(self) -> bool:
        """Whether it runs back into itself."""
        return self.member.path.closed

    @cached_property
    def bend_places(self) -> Floats:
        """(b,) s of the points on bends between which chords run: eight in a right angle, both ends included."""
        places = []
        for segment, start in zip(self.segments, self.starts, strict=False):
            if isinstance(segment, Arc):
                count = max(2, int(np.ceil(segment.angle / (np.pi / 2) * CHORDS_IN_RIGHT_ANGLE - 1e-9)))
                places.append(start + np.linspace(0.0, segment.length, count + 1))
        return np.concatenate(places) if places else np.zeros(0)

    def which(self, s: Floats) -> list[int]:
        """The segment on which each s (k,) lies."""
        before = np.searchsorted(self.starts, s, side="right") - 1
        return [int(k) for k in np.clip(before, 0, len(self.segments) - 1)]

    def points(self, s: Floats) -> Floats:
        """Points (k, 3) of the centroid line [mm]; beyond the ends of the path along their tangents."""
        centroid = np.asarray(self.member.stock.section.centroid, dtype=np.float64)[None]
        return self.placed(s, centroid)[:, 0]

    def origin(self, s: float) -> Floats:
        """The point (3,) of the path itself at s [mm]."""
        return np.asarray(self.placed(np.array([s]), np.zeros((1, 2)))[0, 0])

    def directions(self, s: Floats) -> Floats:
        """Where the section's u points at s (k,), (k, 3) unit vectors."""
        both = self.placed(s, np.array([[0.0, 0.0], [1.0, 0.0]]))
        return np.asarray(both[:, 1] - both[:, 0])

    def curvature_radius(self, s: float) -> float | None:
        """The bend radius at s [mm], None on a straight."""
        segment = self.segments[self.which(np.array([s]))[0]]
        return segment.radius if isinstance(segment, Arc) else None

    def nearest(self, point: Floats) -> tuple[float, float]:
        """s of the path's point nearest to a point (3,), and the distance, both [mm]; no further than the material."""
        gaps = [segment_gap(segment, point) for segment in self.segments]
        k = int(np.argmin(gaps))
        segment = self.segments[k]
        if isinstance(segment, Arc):
            along = turned_to(segment, point) * segment.radius
        else:
            along = float((point - segment.start) @ segment.direction)
            low = -np.inf if k == 0 else 0.0
            along = min(max(along, low), np.inf if k == len(self.segments) - 1 else segment.length)
        s = min(max(float(self.starts[k]) + along, self.first), self.last)
        return s, float(np.linalg.norm(self.placed(np.array([s]), np.zeros((1, 2)))[0, 0] - point))

    def crossings(self, axis: int, value: float) -> list[float]:
        """s where straights of the line pass coordinate `axis` = value, within the material."""
        found = []
        for segment, start in zip(self.segments, self.starts, strict=False):
            if isinstance(segment, Straight) and abs(segment.direction[axis]) > 1e-6:
                s = float(start + (value - segment.start[axis]) / segment.direction[axis])
                inside = start <= s <= start + segment.length
                if inside and self.first < s < self.last:
                    found.append(s)
        return found

    def placed(self, s: Floats, uv: Floats) -> Floats:
        """Points (k, j, 3) of the section points uv (j, 2) at each s (k,) [mm]."""
        result = np.empty((len(s), len(uv), 3))
        which = np.array(self.which(s), dtype=np.intp)
        for k in np.unique(which):
            here = which == k
            part = (s[here] - self.starts[k]) / self.segments[k].length
            result[here] = self.member.body.place(int(k), part, uv)
        return result


def working_line(member: Member, members: tuple[Member, ...]) -> WorkingLine:
    """The working line of a trimmed member; members: all of the piece, to look up what its ends are coped to."""
    lengths = [segment.length for segment in member.path.segments]
    starts = np.concatenate([[0.0], np.cumsum(lengths)])
    total = float(starts[-1])
    if member.path.closed:
        return WorkingLine(member, starts, 0.0, total)
    stop = [_stop(member, end, members) for end in (0, 1)]
    return WorkingLine(member, starts, -stop[0], total + stop[1])


def _stop(member: Member, end: int, members: tuple[Member, ...]) -> float:
    """Where the centroid line's material stops, beyond the drawn end [mm]."""
    cut = member.ends[end]
    if not cut.planes and not cut.copes:
        return 0.0
    centroid = np.asarray(member.stock.section.centroid, dtype=np.float64)[None]
    return float(stops(member.body, end, centroid, cut.planes, tuple(members[k].body for k in cut.copes))[0])
