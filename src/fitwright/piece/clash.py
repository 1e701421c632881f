"""Parts that run into one another, and parts that touch along the way (laps and crossings)."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from fitwright.piece.path import Vector
from fitwright.piece.solid import STATION_MM, Trimmed

Floats = NDArray[np.float64]

CLASH_MM = 0.3
TOUCH_MM = 0.3
NEAR_MM = 3.0


@dataclass(frozen=True, eq=False)
class Touch:
    """Two members (indices) that touch beside their ends: `depth` into one another [mm] at a point (3,)."""

    first: int
    second: int
    depth: float
    point: Vector


def touches(members: list[Trimmed], skip: set[tuple[int, int]]) -> list[Touch]:
    """Pairs of trimmed members that touch or overlap, deepest point each; `skip` holds pairs (low, high) to leave out."""
    found = []
    lows = np.array([member.box[0] for member in members])
    highs = np.array([member.box[1] for member in members])
    for i, member in enumerate(members):
        near = ((lows - TOUCH_MM < highs[i]) & (highs + TOUCH_MM > lows[i])).all(axis=1)
        for j in np.flatnonzero(near):
            if j > i and (i, int(j)) not in skip:
                touch = _touch(i, member, int(j), members[int(j)])
                found += [touch] if touch else []
    return found


def box_depth(member: Trimmed, low: Vector, high: Vector) -> tuple[float, Vector]:
    """How deep a member's surface reaches into a box (low, high) (3,) [mm], negative when clear of it, and where."""
    points = member.surface
    inside = np.minimum(points - low, high - points).min(axis=1)
    at = int(np.argmax(inside))
    return float(inside[at]), points[at]


def _touch(i: int, first: Trimmed, j: int, second: Trimmed) -> Touch | None:
    candidates = [t for t in (_deepest(first, second), _deepest(second, first)) if t is not None]
    if not candidates:
        return None
    depth, point = max(candidates, key=lambda pair: pair[0])
    return Touch(i, j, depth, point) if depth > -TOUCH_MM else None


def _deepest(first: Trimmed, second: Trimmed) -> tuple[float, Vector] | None:
    """The surface point of the first that lies deepest in the second (negative: nearest to it)."""
    if first.body.section.is_round:
        return _deepest_round(first, second)
    points = first.surface
    near = ((points > second.box[0] - NEAR_MM) & (points < second.box[1] + NEAR_MM)).all(axis=1)
    points = points[near]
    if not len(points):
        return None
    depth = second.depth(points)
    at = int(np.argmax(depth))
    if depth[at] < -NEAR_MM:
        return None
    return float(depth[at]), points[at]


def _deepest_round(first: Trimmed, second: Trimmed) -> tuple[float, Vector] | None:
    """The same for a round member: its radius less the least distance of its axis, found to a hundredth [mm]."""
    radius = first.body.reach
    axis, spacing = _axis_points(first)
    near = ((axis > second.box[0] - radius - NEAR_MM) & (axis < second.box[1] + radius + NEAR_MM)).all(axis=1)
    axis, spacing = axis[near], spacing[near]
    if not len(axis):
        return None
    gap = -second.depth(axis)
    at = int(np.argmin(gap))
    if radius - gap[at] < -NEAR_MM:
        return None
    fine = axis[at] + np.linspace(-1, 1, 81)[:, None] * spacing[at]
    gaps = -second.depth(fine)
    best = int(np.argmin(gaps))
    return radius - float(gaps[best]), fine[best]


def _axis_points(member: Trimmed) -> tuple[Floats, Floats]:
    """Points (k, 3) of the axis away from the open ends, and the step (k, 3) to the next."""
    points, steps = [], []
    for k, segment in enumerate(member.body.path.segments):
        count = max(int(segment.length / STATION_MM), 2) + 1
        at = member.body.place(k, np.linspace(0, 1, count), np.zeros((1, 2)))[:, 0, :]
        points.append(at)
        steps.append(np.gradient(at, axis=0))
    axis, step = np.vstack(points), np.vstack(steps)
    if member.body.path.closed:
        return axis, step
    keep = member.depth(axis) > -1e-9
    for end in (0, 1):
        keep &= np.linalg.norm(axis - member.body.point_at(end), axis=1) > 1.5 * member.body.reach
    return axis[keep], step[keep]
