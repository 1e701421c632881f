"""Where the material of a member stops at an end: against planes, and against the round outside of other members."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
from numpy.typing import NDArray

from fitwright.piece.body import Body
from fitwright.piece.model import CutKind, EndCut, Plane
from fitwright.piece.path import Segment, Straight, Vector

Floats = NDArray[np.float64]

SQUARE_WITHIN_RAD = 1e-3
MARCH_STEPS = 80


def plane_stop(body: Body, end: int, uv: Floats, plane: Plane) -> Floats:
    """Where lines along the member's axis through section points uv (k, 2) meet a plane (k,) [mm beyond the end]."""
    outward = body.outward(end)
    origins = body.point_at(end) + uv @ body.frame_at(end)
    stop: Floats = ((plane.point - origins) @ plane.normal) / float(outward @ plane.normal)
    return stop


def cope_stop(body: Body, end: int, uv: Floats, other: Body) -> Floats:
    """Where the same lines first meet the round outside of another member (k,) [mm beyond the end].

    Lines that pass beside it stop in the plane through its axis, so a branch wider than the tube it meets is
    fitted to the tube's full width and no further.
    Source: intersection of a line with a cylinder; sphere tracing of the distance where the other is bent there.
    """
    outward = body.outward(end)
    origins = body.point_at(end) + uv @ body.frame_at(end)
    segment = nearest_segment(other, body.point_at(end))
    radius = (other.section.extents[1] - other.section.extents[0]) / 2
    if isinstance(segment, Straight) and _well_inside(segment, body, end, 3 * radius):
        return _cylinder_stop(origins, outward, segment.start, segment.direction, radius)
    return _march_stop(origins, outward, other, axis_plane(body, end, other))


def axis_plane(body: Body, end: int, other: Body) -> Plane:
    """The plane through the other member's axis, square to the approach, at which a cope ends."""
    outward = body.outward(end)
    point, along = nearest_axis(other, body.point_at(end))
    normal = outward - (outward @ along) * along
    return Plane(point, normal / np.linalg.norm(normal))


def nearest_axis(body: Body, point: Vector) -> tuple[Vector, Vector]:
    """The nearest point (3,) of a member's path and the direction (3,) of the path there."""
    segment = nearest_segment(body, point)
    if isinstance(segment, Straight):
        along = segment.direction
        return segment.start + ((point - segment.start) @ along) * along, along
    spoke = (segment.start - segment.centre) / segment.radius
    offset = point - segment.centre
    turned = np.arctan2(offset @ np.cross(segment.axis, spoke), offset @ spoke)
    here = np.array([np.clip(turned, 0, segment.angle)])
    return segment.at(here)[0], segment.tangent(here)[0]


def nearest_segment(body: Body, point: Vector) -> Segment:
    """The segment of a member's path that is nearest to a point (3,)."""
    return min(body.path.segments, key=lambda segment: segment_gap(segment, point))


def segment_gap(segment: Segment, point: Vector) -> float:
    """Distance from a point (3,) to a segment of a path [mm]."""
    if isinstance(segment, Straight):
        along = float(np.clip((point - segment.start) @ segment.direction, 0, segment.length))
        return float(np.linalg.norm(point - segment.start - along * segment.direction))
    spoke = (segment.start - segment.centre) / segment.radius
    offset = point - segment.centre
    turned = float(np.arctan2(offset @ np.cross(segment.axis, spoke), offset @ spoke)) % (2 * np.pi)
    turned = min(turned, segment.angle) if turned < (segment.angle + 2 * np.pi) / 2 else 0.0
    return float(np.linalg.norm(point - segment.at(np.array([turned]))[0]))


def stops(body: Body, end: int, uv: Floats, planes: tuple[Plane, ...], copes: tuple[Body, ...]) -> Floats:
    """Where the material stops (k,) under all the cuts of an end together [mm beyond the end]."""
    found = [plane_stop(body, end, uv, plane) for plane in planes]
    found += [cope_stop(body, end, uv, other) for other in copes]
    return np.min(found, axis=0) if found else np.zeros(len(uv))


def cut_extremes(body: Body, end: int, planes: tuple[Plane, ...], copes: tuple[Body, ...]) -> tuple[float, float]:
    """Longest and shortest reach of the material over the section's outline [mm beyond the end]."""

    def stop(uv: Floats) -> Floats:
        return stops(body, end, uv, planes, copes)

    outline = body.section.outline()
    return _extreme(stop, outline, np.argmax, np.max), _extreme(stop, outline, np.argmin, np.min)


def _extreme(
    stop: Callable[[Floats], Floats],
    outline: Floats,
    pick: Callable[[Floats], np.intp],
    value: Callable[[Floats], np.float64],
) -> float:
    """The extreme of `stop` round the outline, refined between the outline's points (on its circle, where round)."""
    at = int(pick(stop(outline)))
    before, here, after = outline[at - 1], outline[at], outline[(at + 1) % len(outline)]
    round_section = bool(np.allclose(np.hypot(*outline.T), np.hypot(*outline[0])))
    low, high = 0.0, 2.0
    for _ in range(4):
        parts = np.linspace(low, high, 21)
        points = np.where(
            (parts <= 1)[:, None], before + parts[:, None] * (here - before), here + (parts - 1)[:, None] * (after - here)
        )
        if round_section:
            points = points * (np.hypot(*here) / np.hypot(points[:, 0], points[:, 1]))[:, None]
        found = stop(points)
        best = int(pick(found))
        low, high = parts[max(best - 1, 0)], parts[min(best + 1, 20)]
    return float(value(found))


def cut(kind: CutKind | None, body: Body, end: int, planes: tuple[Plane, ...], copes: dict[int, Body]) -> EndCut:
    """The finished end cut; its kind is found from the cuts unless said."""
    longest, shortest = cut_extremes(body, end, planes, tuple(copes.values()))
    angle = max((_tilt(body.outward(end), plane) for plane in planes), default=0.0) if not copes else 0.0
    found = CutKind.COPE if copes else CutKind.MITRE if angle > SQUARE_WITHIN_RAD else CutKind.SQUARE
    return EndCut(kind or found, angle if angle > SQUARE_WITHIN_RAD else 0.0, planes, tuple(copes), longest, shortest)


def _tilt(outward: Vector, plane: Plane) -> float:
    return float(np.arccos(np.clip(outward @ plane.normal, -1, 1)))


def _well_inside(segment: Straight, body: Body, end: int, margin: float) -> bool:
    along = (body.point_at(end) - segment.start) @ segment.direction
    return bool(margin <= along <= segment.length - margin)


def _cylinder_stop(origins: Floats, outward: Vector, centre: Vector, axis: Vector, radius: float) -> Floats:
    offsets = origins - centre
    offsets = offsets - (offsets @ axis)[:, None] * axis
    across = outward - (outward @ axis) * axis
    square = float(across @ across)
    middle = -(offsets @ across) / square
    inside = (offsets @ across) ** 2 - square * ((offsets**2).sum(axis=1) - radius**2)
    stop: Floats = middle - np.sqrt(np.maximum(inside, 0)) / square
    return stop


def _march_stop(origins: Floats, outward: Vector, other: Body, limit: Plane) -> Floats:
    to_plane = ((limit.point - origins) @ limit.normal) / float(outward @ limit.normal)
    at = to_plane - 4 * other.reach / abs(float(outward @ limit.normal))
    for _ in range(MARCH_STEPS):
        gap = other.distance(origins + at[:, None] * outward)
        at = np.where(at < to_plane, at + np.maximum(gap, 0), at)
        if (np.minimum(gap, to_plane - at) < 1e-6).all():
            break
    stop: Floats = np.minimum(at, to_plane)
    return stop
