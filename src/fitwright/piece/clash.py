"""Parts that run into one another, and parts that touch along the way (laps and crossings)."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from fitwright.piece.path import Straight, Vector
from fitwright.piece.sections import outline_of
from fitwright.piece.solid import STATION_MM, Lines, Trimmed
from fitwright.piece.trim import turned_to

Floats = NDArray[np.float64]

CLASH_MM = 0.3
TOUCH_MM = 0.3
NEAR_MM = 3.0
BEND_STATION_MM = 2.0
ROUND_POINTS = 36
LINE_POINTS, ANGLE_POINTS = 5, 41  # looked at on a line within the box round a part; an angle fills little of its box
END_REACHES = 2.125  # how much of a round member's end, in radii, has no full round beside its axis


@dataclass(frozen=True, eq=False)
class Touch:
    """Two members (indices) that touch: `depth` into one another [mm] at a point (3,); negative for a gap."""

    first: int
    second: int
    depth: float
    point: Vector


Deepest = tuple[float, Vector]


def touches(members: list[Trimmed], apart: frozenset[int] = frozenset()) -> list[Touch]:
    """Every place where two trimmed members touch or overlap, deepest point each; `apart`: indices to leave out."""
    lows = np.array([member.box[0] for member in members]).reshape(-1, 3)
    highs = np.array([member.box[1] for member in members]).reshape(-1, 3)
    found = []
    for i, member in enumerate(members):
        near = ((lows[i + 1 :] - TOUCH_MM < highs[i]) & (highs[i + 1 :] + TOUCH_MM > lows[i])).all(axis=1)
        for j in np.flatnonzero(near) + i + 1:
            if i not in apart and int(j) not in apart:
                places = _separate(list(_touching(member, members[j])), 2 * (member.body.reach + members[j].body.reach))
                found += [Touch(i, int(j), depth, point) for depth, point in places]
    return found


def box_depth(member: Trimmed, low: Vector, high: Vector) -> Deepest:
    """How deep a member's surface reaches into a box (low, high) (3,) [mm], negative when clear of it, and where."""
    if (member.box[0] > high).any() or (member.box[1] < low).any():
        apart = np.maximum(member.box[0] - high, low - member.box[1])
        return -float(apart.max()), (member.box[0] + member.box[1]) / 2
    boxes = member.whole.boxes
    near = np.flatnonzero(((boxes[:, 0] <= high) & (boxes[:, 1] >= low)).all(axis=1)).tolist()
    straights = [lines for k in near if (lines := member.lines[k]) is not None]
    clouds = [_clipped(lines, np.eye(3), np.zeros(3), low, high) for lines in straights]
    clouds += [cloud for k in near if (cloud := member.bends[k]) is not None]
    points = np.vstack([np.zeros((0, 3)), *clouds])
    if not len(points):
        return -np.inf, member.body.path.start
    inside = np.minimum(points - low, high - points).min(axis=1)
    at = int(np.argmax(inside))
    return float(inside[at]), points[at]


def _touching(first: Trimmed, second: Trimmed) -> Iterator[Deepest]:
    """The deepest point for each two segments that come within `TOUCH_MM` of one another."""
    for k, m in _near_segments(first, second):
        places = [_surface_in(first, k, second, m), _surface_in(second, m, first, k)]
        if first.body.section.is_round:
            places.append(_axis_beside(first, k, second, m))
        if second.body.section.is_round:
            places.append(_axis_beside(second, m, first, k))
        known = [place for place in places if place is not None]
        if known:
            depth, point = max(known, key=lambda place: place[0])
            if depth > -TOUCH_MM:
                yield depth, point


def _near_segments(first: Trimmed, second: Trimmed) -> list[tuple[int, int]]:
    ours, theirs = first.whole.boxes, second.whole.boxes
    near = (ours[:, None, 0] - TOUCH_MM < theirs[None, :, 1]) & (theirs[None, :, 0] - TOUCH_MM < ours[:, None, 1])
    return [(int(k), int(m)) for k, m in np.argwhere(near.all(axis=2))]


def _separate(places: list[Deepest], apart: float) -> list[Deepest]:
    """The deepest of places nearer to one another than `apart` [mm]."""
    if len(places) < 2:
        return places
    kept: list[Deepest] = []
    for place in sorted(places, key=lambda pair: -pair[0]):
        if all(float(np.linalg.norm(place[1] - other[1])) > apart for other in kept):
            kept.append(place)
    return kept


def _surface_in(first: Trimmed, k: int, second: Trimmed, m: int) -> Deepest | None:
    """The point of the first's surface on segment k that lies deepest in the second, looked for near its segment m."""
    lines, bend = first.lines[k], first.bends[k]
    if lines is None:
        assert bend is not None, "a segment is straight or a bend"
        low, high = second.whole.boxes[m]
        points = bend[((bend > low) & (bend < high)).all(axis=1)]
    elif second.lines[m] is None:
        points = _clipped(lines, np.eye(3), np.zeros(3), *second.whole.boxes[m])
    else:
        points = _clipped_to_straight(lines, second, m)
    if not len(points):
        return None
    depth = second.depth(points, TOUCH_MM)
    at = int(np.argmax(depth))
    return float(depth[at]), points[at]


def _clipped_to_straight(lines: Lines, second: Trimmed, m: int) -> Floats:
    body = second.whole
    segment = body.path.segments[m]
    u0, u1, v0, v1 = body.section.extents
    along = (segment.end - segment.start) / segment.length
    axes = np.vstack([body.frames[m], along])
    low, high = np.array([u0, v0, 0.0]), np.array([u1, v1, segment.length])
    looked_at = ANGLE_POINTS if body.section.shape == "angle" else LINE_POINTS
    return _clipped(lines, axes, segment.start, low - TOUCH_MM, high + TOUCH_MM, looked_at)


def _clipped(
    lines: Lines, axes: Floats, origin: Vector, low: Vector, high: Vector, looked_at: int = LINE_POINTS
) -> Floats:
    """Points (n, 3) of the lines inside a box, given by its axes (3, 3) and corners along them from an origin (3,)."""
    starts, along = (lines.starts - origin) @ axes.T, axes @ lines.direction
    still = np.abs(along) < 1e-12
    with np.errstate(divide="ignore", invalid="ignore"):
        one, other = (low - starts) / along, (high - starts) / along
    outside = (starts < low) | (starts > high)
    enter = np.where(still, np.where(outside, np.inf, -np.inf), np.minimum(one, other)).max(axis=1)
    leave = np.where(still, np.where(outside, -np.inf, np.inf), np.maximum(one, other)).min(axis=1)
    enter, leave = np.maximum(enter, 0.0), np.minimum(leave, lines.lengths)
    met = enter <= leave
    at = enter[met, None] + (leave - enter)[met, None] * _parts(looked_at)
    return np.asarray((lines.starts[met, None, :] + at[..., None] * lines.direction).reshape(-1, 3))


@lru_cache(maxsize=8)
def _parts(count: int) -> Floats:
    return np.linspace(0.0, 1.0, count)


def _axis_beside(first: Trimmed, k: int, second: Trimmed, m: int) -> Deepest | None:
    """For a round member: its radius less the least distance of its axis from the second, found to a hundredth [mm]."""
    radius = first.body.section.extents[1]
    if ("axis", k) not in first.worked_out:
        first.worked_out["axis", k] = _axis_points(first, k)
    axis, spacing = first.worked_out["axis", k]
    low, high = second.whole.boxes[m]
    near = ((axis > low - radius - NEAR_MM) & (axis < high + radius + NEAR_MM)).all(axis=1)
    axis, spacing = axis[near], spacing[near]
    if not len(axis):
        return None
    gap = -second.depth(axis, radius + NEAR_MM)
    at = int(np.argmin(gap))
    if radius - gap[at] < -NEAR_MM:
        return None
    fine = axis[at] + np.linspace(-1, 1, 81)[:, None] * spacing[at]
    fine = fine[_full_round(first, fine)]
    gaps = -second.depth(fine, radius + TOUCH_MM)
    best = int(np.argmin(gaps))
    if radius - gaps[best] < -TOUCH_MM:
        return None
    return _proven(first, k, second, fine[best], radius - float(gaps[best]))


def _proven(first: Trimmed, k: int, second: Trimmed, point: Vector, depth: float) -> Deepest | None:
    """The depth where no cut of the second can have taken what is nearest to the axis there; where one can, the deepest
    of the first's outside there instead."""
    gap = first.body.section.extents[1] - depth
    if float(second.kept(point[None])[0]) >= gap - 1e-6:
        return depth, point
    around = first.body.place(
        k, _stations_beside(first, k, point), outline_of(first.body.section, ROUND_POINTS)
    ).reshape(-1, 3)
    found = second.depth(around, TOUCH_MM)
    at = int(np.argmax(found))
    return float(found[at]), around[at]


def _stations_beside(member: Trimmed, k: int, point: Vector) -> Floats:
    """Fractions of a segment (n,) either side of a point on its axis, past its ends only where the member ends."""
    segment = member.body.path.segments[k]
    if isinstance(segment, Straight):
        at = float((point - segment.start) @ segment.direction) / segment.length
    else:
        at = turned_to(segment, point) / segment.angle
    before, after = member.body.opens(k)
    stations = at + np.linspace(-STATION_MM, STATION_MM, 9) / segment.length
    return np.clip(stations, -np.inf if before else 0.0, np.inf if after else 1.0)


def _axis_points(member: Trimmed, k: int) -> tuple[Floats, Floats]:
    """Points (n, 3) of the axis along a segment, away from the open ends, and the step (n, 3) to the next."""
    segment = member.body.path.segments[k]
    step_mm = STATION_MM if isinstance(segment, Straight) else BEND_STATION_MM
    count = max(int(segment.length / step_mm), 2) + 1
    axis = member.body.place(k, np.linspace(0, 1, count), np.zeros((1, 2)))[:, 0, :]
    step = np.diff(axis, axis=0)
    step = np.vstack([step[:1], (step[1:] + step[:-1]) / 2, step[-1:]])
    keep = _full_round(member, axis)
    return axis[keep], step[keep]


def _full_round(member: Trimmed, axis: Floats) -> NDArray[np.bool_]:
    """Which points (n, 3) of the axis have the full round of the section beside them."""
    if member.body.path.closed:
        return np.ones(len(axis), dtype=bool)
    keep = np.ones(len(axis), dtype=bool)
    for end in (0, 1):
        inward = (member.body.point_at(end) - axis) @ member.body.outward(end)
        away = ((axis - member.body.point_at(end)) ** 2).sum(axis=1)
        needed = END_REACHES * member.body.reach - member.shortest[end]
        keep &= (inward > needed) | (away > (needed + member.body.reach) ** 2)
    return keep
