"""Where the material of a member stops at an end: against planes, and against the round outside of other members."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
from numpy.typing import NDArray

from fitwright.piece.body import Body
from fitwright.piece.model import CutKind, EndCut, Plane
from fitwright.piece.path import Arc, Segment, Straight, Vector
from fitwright.piece.sections import fibres_of, outline_of
from fitwright.piece.vectors import size, unit

Floats = NDArray[np.float64]

SQUARE_WITHIN_RAD = 1e-3
MARCH_STEPS = 80
NEWTON_MM, GRAZING = 1e-4, 1e-6
ROUGH, FINE = 72, 360  # points of an outline that is zoomed into, and of one that is not
ZOOMS, ZOOM_STEPS = 2, 41  # from 10 degrees of outline to a fortieth of one
FLAT_MM = 1e-9
TAKES_MM = 1e-6


def plane_stop(body: Body, end: int, uv: Floats, plane: Plane) -> Floats:
    """Where lines along the member's axis through section points uv (k, 2) meet a plane (k,) [mm beyond the end]."""
    middle, slope = plane_slope(body, end, plane)
    stop: Floats = middle + uv @ slope
    return stop


def plane_slope(body: Body, end: int, plane: Plane) -> tuple[float, Floats]:
    """Where the member's own line meets a plane [mm beyond the end], and how that changes with u and v (2,)."""
    facing = float(body.outward(end) @ plane.normal)
    middle = float((plane.point - body.point_at(end)) @ plane.normal) / facing
    return middle, -(body.frame_at(end) @ plane.normal) / facing


def cope_stop(body: Body, end: int, uv: Floats, other: Body) -> Floats:
    """Where the same lines first meet the round outside of another member (k,) [mm beyond the end].

    Lines that pass beside it stop in the plane through its axis, so a branch wider than the tube it meets is
    fitted to the tube's full width and no further.
    Source: intersection of a line with a cylinder; sphere tracing of the distance where the other is bent there.
    """
    outward = body.outward(end)
    origins = body.point_at(end) + uv @ body.frame_at(end)
    run = straight_met(body.point_at(end), other)
    if run is not None:
        return _cylinder_stop(origins, outward, run.start, run.direction, other.section.extents[1])
    return march_stop(body, end, uv, other)


def straight_met(point: Vector, other: Body) -> Straight | None:
    """The straight of a round member that a cope at a point (3,) is cut to; None in a bend or within 3 radii of one.

    A cope is a full round also past the open end of the member it is fitted to, as a hole saw cuts it.
    """
    segments, segment = other.path.segments, nearest_segment(other, point)
    if not isinstance(segment, Straight):
        return None
    along = float((point - segment.start) @ segment.direction)
    margin = 3 * other.section.extents[1]
    opens = segment is segments[0] and not other.path.closed
    closes = segment is segments[-1] and not other.path.closed
    return segment if (opens or along >= margin) and (closes or along <= segment.length - margin) else None


def cope_distance(body: Body, end: int, other: Body, points: Floats) -> Floats:
    """Distance (k,) of points (k, 3) from the round that a cope is cut to, negative inside it [mm]."""
    run = straight_met(body.point_at(end), other)
    if run is None:
        return other.distance(points)
    offsets = points - run.start
    offsets = offsets - (offsets @ run.direction)[:, None] * run.direction
    return np.asarray(np.sqrt(np.einsum("ij,ij->i", offsets, offsets)) - other.section.extents[1])


def axis_plane(body: Body, end: int, other: Body) -> Plane:
    """The plane through the other member's axis, square to the approach, at which a cope ends."""
    outward = body.outward(end)
    point, along = nearest_axis(other, body.point_at(end))
    return Plane(point, unit(outward - (outward @ along) * along))


def nearest_axis(body: Body, point: Vector) -> tuple[Vector, Vector]:
    """The nearest point (3,) of a member's path and the direction (3,) of the path there."""
    segment = nearest_segment(body, point)
    if isinstance(segment, Straight):
        along = segment.direction
        return segment.start + ((point - segment.start) @ along) * along, along
    here = np.array([turned_to(segment, point)])
    return segment.at(here)[0], segment.tangent(here)[0]


def nearest_segment(body: Body, point: Vector) -> Segment:
    """The segment of a member's path that is nearest to a point (3,)."""
    segments = body.path.segments
    if len(segments) == 1:
        return segments[0]
    asked, found = point.tobytes(), body.nearest_known
    if asked not in found:
        found[asked] = min(segments, key=lambda segment: segment_gap(segment, point))
    return found[asked]


def turned_to(arc: Arc, point: Vector) -> float:
    """How far round a bend [rad] its nearest point to a point (3,) lies."""
    offset = point - arc.centre
    turned = float(np.arctan2(offset @ arc.onward, offset @ arc.spoke)) % (2 * np.pi)
    return min(turned, arc.angle) if turned < arc.angle / 2 + np.pi else 0.0


def segment_gap(segment: Segment, point: Vector) -> float:
    """Distance from a point (3,) to a segment of a path [mm]."""
    if isinstance(segment, Straight):
        away = point - segment.start
        along = min(max(float(away @ segment.direction), 0.0), segment.length)
        return size(away - along * segment.direction)
    return size(point - segment.at(np.array([turned_to(segment, point)]))[0])


def stops(body: Body, end: int, uv: Floats, planes: tuple[Plane, ...], copes: tuple[Body, ...]) -> Floats:
    """Where the material stops (k,) under all the cuts of an end together [mm beyond the end]."""
    found = [plane_stop(body, end, uv, plane) for plane in planes]
    found += [cope_stop(body, end, uv, other) for other in copes]
    if len(found) == 1:
        return found[0]
    return np.asarray(np.min(found, axis=0)) if found else np.zeros(len(uv))


def cut_extremes(body: Body, end: int, planes: tuple[Plane, ...], copes: tuple[Body, ...]) -> tuple[float, float]:
    """Longest and shortest reach of the material over the section's outline [mm beyond the end]."""
    if not planes and not copes:
        return 0.0, 0.0
    if len(planes) == 1 and not copes and body.section.is_round:
        middle, slope = plane_slope(body, end, planes[0])
        rise = body.reach * float(np.hypot(*slope))
        return middle + rise, middle - rise
    fine = len(planes) + len(copes) > 1 or body.section.is_round

    def stop(uv: Floats) -> Floats:
        return stops(body, end, uv, planes, copes)

    return extreme(stop, body, np.argmax, fine=fine), extreme(stop, body, np.argmin, fine=fine)


def extreme(stop: Callable[[Floats], Floats], body: Body, pick: Callable[[Floats], np.intp], *, fine: bool) -> float:
    """The extreme of a function of section points (k, 2) round the outline; fine: sought between its points too."""
    outline = outline_of(body.section, ROUGH if fine else FINE)
    found = stop(outline)
    at = int(pick(found))
    if not fine or float(np.ptp(found)) < FLAT_MM:
        return float(found[at])
    corners = np.array([outline[at - 1], outline[at], outline[(at + 1) % len(outline)]])
    low, high = 0.0, 2.0
    for _ in range(ZOOMS):
        parts = np.linspace(low, high, ZOOM_STEPS)
        points = np.column_stack([np.interp(parts, (0, 1, 2), corners[:, k]) for k in (0, 1)])
        if body.section.is_round:
            points *= (body.section.extents[1] / np.hypot(points[:, 0], points[:, 1]))[:, None]
        found = stop(points)
        best = int(pick(found))
        low, high = parts[max(best - 1, 0)], parts[min(best + 1, ZOOM_STEPS - 1)]
    return float(found[best])


def cut(kind: CutKind | None, body: Body, end: int, planes: tuple[Plane, ...], copes: dict[int, Body]) -> EndCut:
    """The finished end cut; its kind is found from the cuts unless said. Planes that take nothing off are left out."""
    planes = planes if copes or len(planes) < 2 else _cutting(body, end, planes)
    longest, shortest = cut_extremes(body, end, planes, tuple(copes.values()))
    angle = max((_tilt(body.outward(end), plane) for plane in planes), default=0.0) if not copes else 0.0
    found = CutKind.COPE if copes else CutKind.MITRE if angle > SQUARE_WITHIN_RAD else CutKind.SQUARE
    return EndCut(kind or found, angle if angle > SQUARE_WITHIN_RAD else 0.0, planes, tuple(copes), longest, shortest)


def _cutting(body: Body, end: int, planes: tuple[Plane, ...]) -> tuple[Plane, ...]:
    """Those of several planes that part the material somewhere, the first of equal ones."""
    uv = np.vstack([outline_of(body.section, ROUGH), fibres_of(body.section)[:, :2]])
    at = np.array([plane_stop(body, end, uv, plane) for plane in planes])
    kept: list[int] = []
    for k in np.argsort(at.min(axis=1), kind="stable"):
        others = at[kept].min(axis=0) if kept else np.full(len(uv), np.inf)
        if (at[k] < others - TAKES_MM).any():
            kept.append(int(k))
    return tuple(planes[k] for k in sorted(kept))


def _tilt(outward: Vector, plane: Plane) -> float:
    return float(np.arccos(np.clip(outward @ plane.normal, -1, 1)))


def _cylinder_stop(origins: Floats, outward: Vector, centre: Vector, axis: Vector, radius: float) -> Floats:
    offsets = origins - centre
    offsets = offsets - (offsets @ axis)[:, None] * axis
    across = outward - (outward @ axis) * axis
    square = float(across @ across)
    middle = -(offsets @ across) / square
    inside = (offsets @ across) ** 2 - square * ((offsets**2).sum(axis=1) - radius**2)
    stop: Floats = middle - np.sqrt(np.maximum(inside, 0)) / square
    return stop


def march_stop(body: Body, end: int, uv: Floats, other: Body) -> Floats:
    """The same as `cope_stop` (k,) for any member, bent or not, by sphere tracing of its distance [mm]."""
    limit, outward = axis_plane(body, end, other), body.outward(end)
    origins = body.point_at(end) + uv @ body.frame_at(end)
    to_plane = plane_stop(body, end, uv, limit)
    at = to_plane - 4 * other.reach / abs(float(outward @ limit.normal))

    def gap(along: Floats) -> Floats:
        return other.distance(origins + along[:, None] * outward)

    for step in range(MARCH_STEPS):
        here = gap(at)
        if (np.minimum(np.abs(here), np.abs(to_plane - at)) < 1e-6).all():
            break
        stride = np.maximum(here, 0)
        if step >= MARCH_STEPS // 2:
            # Newton's steps once near: the distance alone creeps up to a surface that the line only grazes.
            closing = (here - gap(at + NEWTON_MM)) / NEWTON_MM
            stride = np.where(closing > GRAZING, here / np.maximum(closing, GRAZING), here)
        at = np.minimum(at + stride, to_plane)
    return at
