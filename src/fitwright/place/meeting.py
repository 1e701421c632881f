"""Triangles against boxes: which of them meet one, and how near they come to it seen along an axis."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from fitwright.place.outline import Skin

Floats = NDArray[np.float64]
Mask = NDArray[np.bool_]

TOUCH_MM = 0.05  # parts nearer than this lie against one another and are not in one another's way


def meets(triangles: Floats, low: Floats, high: Floats) -> Mask:
    """Which triangles (k, 3, 3) have a point inside a box (3,), (3,) [mm] (k,); touching is not meeting.

    Source: separating axes of a triangle and a box, T. Akenine-Möller, Fast 3D triangle-box overlap testing, Journal of
    Graphics Tools 6(1), 2001.
    """
    half, corners = (high - low) / 2 - TOUCH_MM, triangles - (low + high) / 2
    if (half <= 0).any():
        return np.zeros(len(triangles), dtype=bool)
    one, other, third = corners[:, 0], corners[:, 1], corners[:, 2]
    apart = np.zeros(len(triangles), dtype=bool)
    for axis in range(3):
        apart |= _apart(one[:, axis], other[:, axis], third[:, axis], half[axis])
    sides = (other - one, third - other, one - third)
    normal = np.cross(sides[0], sides[1])
    apart |= np.abs(np.einsum("kj,kj->k", one, normal)) > np.abs(normal) @ half
    for side in sides:
        for u, v in ((1, 2), (2, 0), (0, 1)):  # the cross product of a side and an axis lies in the plane of the others
            one_at, other_at, third_at = (side[:, u] * at[:, v] - side[:, v] * at[:, u] for at in (one, other, third))
            apart |= _apart(one_at, other_at, third_at, np.abs(side[:, u]) * half[v] + np.abs(side[:, v]) * half[u])
    return ~apart


def _apart(one: Floats, other: Floats, third: Floats, radius: Floats | float) -> Mask:
    """Whether all three corners (k,) lie beyond a box of half a width on one side."""
    low, high = np.minimum(np.minimum(one, other), third), np.maximum(np.maximum(one, other), third)
    return np.asarray((low > radius) | (high < -radius))


def in_the_way(skin: Skin, low: Floats, high: Floats) -> tuple[str, ...]:
    """The parts that reach into a box (3,), (3,) [mm]."""
    near = skin.near(low, high)
    found = set(near.owners[meets(near.triangles, low, high)].tolist())
    return tuple(skin.names[k] for k in sorted(found))


@dataclass(frozen=True, eq=False)
class Nearest:
    """How near something comes [mm], its point there (3,), which part it is, and the way (2,) to the box as seen."""

    gap: float
    point: Floats
    owner: str
    way: Floats


def farthest_in_sight(skin: Skin, low: Floats, high: Floats, axis: int, sign: float) -> Nearest | None:
    """The point farthest along an axis of what a box covers, seen along that axis; None when it covers nothing.

    gap: the coordinate itself [mm]. Corners of the box that lie over a triangle count as points of it.
    """
    seen = [k for k in range(3) if k != axis]
    lows, highs = skin.low[:, seen], skin.high[:, seen]
    near = skin.only(np.asarray(((lows < high[seen]) & (highs > low[seen])).all(axis=1)))
    if not len(near.triangles):
        return None
    starts, ends = near.triangles, np.roll(near.triangles, -1, axis=1)
    points, owners = _clipped(starts.reshape(-1, 3), ends.reshape(-1, 3), np.repeat(near.owners, 3), low, high, seen)
    under, below = _under_corners(near, low, high, seen)
    points, owners = np.vstack([points, under]), np.concatenate([owners, below])
    if not len(points):
        return None
    at = int(np.argmax(sign * points[:, axis]))
    return Nearest(float(points[at, axis]), points[at], skin.names[owners[at]], np.zeros(2))


def nearest_beside(skin: Skin, low: Floats, high: Floats, axis: int) -> Nearest | None:
    """How near the triangles come to a box, seen along an axis: 0 where they cover one another; None without any.

    Holds for what does not lie wholly inside one another as seen; a triangle that covers the whole box counts as 0.
    """
    seen = [k for k in range(3) if k != axis]
    if not len(skin.triangles):
        return None
    starts = skin.triangles[:, :, seen].reshape(-1, 2)
    ends = np.roll(skin.triangles, -1, axis=1)[:, :, seen].reshape(-1, 2)
    flat_low, flat_high = low[seen], high[seen]
    away = np.maximum(np.maximum(flat_low - starts, starts - flat_high), 0.0)
    bound = float(np.hypot(*away.T).min())
    boxed = np.maximum(np.maximum(flat_low - np.maximum(starts, ends), np.minimum(starts, ends) - flat_high), 0.0)
    close = np.flatnonzero(np.hypot(*boxed.T) <= bound + 1e-9)
    gaps, ways, on = _to_box(starts[close], ends[close], flat_low, flat_high)
    at = int(np.argmin(gaps))
    edge = int(close[at])
    start, end = skin.triangles.reshape(-1, 3)[edge], np.roll(skin.triangles, -1, axis=1).reshape(-1, 3)[edge]
    point = start + on[at] * (end - start)
    return Nearest(float(gaps[at]), point, skin.names[skin.owners[edge // 3]], ways[at])


def _to_box(starts: Floats, ends: Floats, low: Floats, high: Floats) -> tuple[Floats, Floats, Floats]:
    """Least distance (k,), the way to the box (k, 2), and where on the segment (k,), of flat segments to a flat box."""
    run = ends - starts
    length = np.maximum((run**2).sum(axis=1), 1e-18)
    places = [np.zeros(len(run)), np.ones(len(run))]
    for corner in np.array([[low[0], low[1]], [low[0], high[1]], [high[0], low[1]], [high[0], high[1]]]):
        places.append(np.clip(((corner - starts) * run).sum(axis=1) / length, 0.0, 1.0))
    enter, leave = _span(starts, run, low, high)
    places.append(np.where(enter <= leave, np.clip(enter, 0.0, 1.0), 0.0))
    at = np.array(places)
    points = starts + at[..., None] * run
    ways = np.clip(points, low, high) - points
    gaps = np.hypot(ways[..., 0], ways[..., 1])
    best = np.argmin(gaps, axis=0)
    each = np.arange(len(run))
    return gaps[best, each], ways[best, each], at[best, each]


def _span(starts: Floats, run: Floats, low: Floats, high: Floats) -> tuple[Floats, Floats]:
    """Where along segments (k, d) they enter and leave a box (k,), (k,), 0 to 1; enter beyond leave where never."""
    still = np.abs(run) < 1e-12
    with np.errstate(divide="ignore", invalid="ignore"):
        one, other = (low - starts) / run, (high - starts) / run
    outside = (starts < low) | (starts > high)
    enter = np.where(still, np.where(outside, np.inf, -np.inf), np.minimum(one, other)).max(axis=1)
    leave = np.where(still, np.where(outside, -np.inf, np.inf), np.maximum(one, other)).min(axis=1)
    return np.maximum(enter, 0.0), np.minimum(leave, 1.0)


def _clipped(
    starts: Floats, ends: Floats, owners: NDArray[np.int64], low: Floats, high: Floats, seen: list[int]
) -> tuple[Floats, NDArray[np.int64]]:
    """Ends (n, 3) of the parts of segments that a box covers as seen, and their owners (n,)."""
    run = ends - starts
    enter, leave = _span(starts[:, seen], run[:, seen], low[seen] + TOUCH_MM, high[seen] - TOUCH_MM)
    met = enter <= leave
    points = [starts[met] + part[met, None] * run[met] for part in (enter, leave)]
    return np.vstack(points), np.concatenate([owners[met], owners[met]])


def _under_corners(skin: Skin, low: Floats, high: Floats, seen: list[int]) -> tuple[Floats, NDArray[np.int64]]:
    """Points (n, 3) of triangles that lie at a corner of the box as seen, and their owners (n,)."""
    first = skin.triangles[:, 0]
    one, other = skin.triangles[:, 1] - first, skin.triangles[:, 2] - first
    flat = one[:, seen[0]] * other[:, seen[1]] - one[:, seen[1]] * other[:, seen[0]]
    square = np.abs(flat) > 1e-9
    flat = np.where(square, flat, 1.0)
    points, owners = [np.zeros((0, 3))], [np.zeros(0, dtype=np.int64)]
    for corner in ((low, low), (low, high), (high, low), (high, high)):
        away = np.array([corner[0][seen[0]], corner[1][seen[1]]]) - first[:, seen]
        u = (away[:, 0] * other[:, seen[1]] - away[:, 1] * other[:, seen[0]]) / flat
        v = (one[:, seen[0]] * away[:, 1] - one[:, seen[1]] * away[:, 0]) / flat
        over = (u >= 0) & (v >= 0) & (u + v <= 1) & square
        points.append(first[over] + u[over, None] * one[over] + v[over, None] * other[over])
        owners.append(skin.owners[over])
    return np.vstack(points), np.concatenate(owners)
