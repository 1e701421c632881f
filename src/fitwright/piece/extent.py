"""The exact box round one trimmed member."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from fitwright.piece.body import Body
from fitwright.piece.model import Plane
from fitwright.piece.path import Arc, Vector
from fitwright.piece.sections import outline_of
from fitwright.piece.trim import FINE, extreme, plane_slope, stops

Floats = NDArray[np.float64]
Box = tuple[Vector, Vector]
Cuts = tuple[tuple[Plane, ...], tuple[Body, ...]]

NEAR_MM = 1.0


def member_box(body: Body, cuts: tuple[Cuts, Cuts]) -> Box:
    """Low and high corners (3,) of a member whose two ends are cut by planes and copes [mm].

    Source: support function of the section at the ends of straights; along an arc the extreme of centre + R cos + h,
    where its derivative vanishes; the cut ends point by point, the tips of copes and of double cuts zoomed into.
    """
    segments, frames = body.path.segments, body.frames
    boxes = [_disc(body, segment.start, frame) for segment, frame in zip(segments[1:], frames[1:], strict=True)]
    boxes += [_arc(body, s, frame) for s, frame in zip(segments, frames, strict=True) if isinstance(s, Arc)]
    if body.path.closed:
        return _around([*boxes, _disc(body, body.path.start, body.frame)])
    ends = [_end(body, end, *cuts[end]) for end in (0, 1)]
    low, high = _around(boxes + ends)
    _zoom_tips(body, cuts, ends, low, high)
    return low, high


def _around(boxes: list[Box]) -> Box:
    return np.min([box[0] for box in boxes], axis=0), np.max([box[1] for box in boxes], axis=0)


def _disc(body: Body, point: Vector, frame: Floats) -> Box:
    """The box of a section square to the path; frame (2, 3) may be stretched to that of an oblique cut."""
    if body.section.is_round:
        half = body.section.extents[1] * np.hypot(frame[0], frame[1])
        return point - half, point + half
    around = outline_of(body.section, FINE) @ frame
    return point + around.min(axis=0), point + around.max(axis=0)


def _arc(body: Body, arc: Arc, frame: Floats) -> Box:
    """The extremes within a bend; infinitely small where the bend has none along an axis."""
    lean = np.arctan2(arc.onward, arc.spoke)
    swing = np.hypot(arc.onward, arc.spoke)
    offsets = np.zeros((1, 2)) if body.section.is_round else outline_of(body.section, FINE)
    more = body.section.extents[1] if body.section.is_round else 0.0
    spokes, hubs = offsets @ (frame @ arc.spoke), offsets @ (frame @ arc.axis)
    reach = arc.centre + np.outer(hubs, arc.axis)
    far = np.outer(arc.radius + spokes, swing)
    high = np.where(_within(lean, arc.angle), (reach + far).max(axis=0) + more, -np.inf)
    low = np.where(_within(lean + np.pi, arc.angle), (reach - far).min(axis=0) - more, np.inf)
    return low, high


def _within(turned: Floats, angle: float) -> NDArray[np.bool_]:
    return np.asarray(turned % (2 * np.pi) < angle)


def _end(body: Body, end: int, planes: tuple[Plane, ...], copes: tuple[Body, ...]) -> Box:
    point, frame, outward = body.point_at(end), body.frame_at(end), body.outward(end)
    if not planes and not copes:
        return _disc(body, point, frame)
    if len(planes) == 1 and not copes:
        middle, slope = plane_slope(body, end, planes[0])
        return _disc(body, point + middle * outward, frame + np.outer(slope, outward))
    outline = outline_of(body.section, FINE)
    points = point + outline @ frame + stops(body, end, outline, planes, copes)[:, None] * outward
    return points.min(axis=0), points.max(axis=0)


def _zoom_tips(body: Body, cuts: tuple[Cuts, Cuts], ends: list[Box], low: Floats, high: Floats) -> None:
    """Move the corners to the true tips of ends cut more than once, where those tips are what reaches farthest."""
    for end, (planes, copes) in enumerate(cuts):
        if len(planes) + len(copes) < 2:
            continue
        for axis in np.flatnonzero(np.abs(body.outward(end)) > 1e-9):
            if ends[end][0][axis] < low[axis] + NEAR_MM:
                low[axis] = min(low[axis], -_tip(body, end, cuts[end], -np.eye(3)[axis]))
            if ends[end][1][axis] > high[axis] - NEAR_MM:
                high[axis] = max(high[axis], _tip(body, end, cuts[end], np.eye(3)[axis]))


def _tip(body: Body, end: int, cuts: Cuts, direction: Vector) -> float:
    point, frame, outward = body.point_at(end), body.frame_at(end), body.outward(end)

    def reach(uv: Floats) -> Floats:
        return np.asarray((point + uv @ frame + stops(body, end, uv, *cuts)[:, None] * outward) @ direction)

    return extreme(reach, body, np.argmax, fine=True)
