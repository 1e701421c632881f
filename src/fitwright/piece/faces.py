"""The cutting plane at an end that meets a flat face, or a round outside that it is not fitted to."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from fitwright.piece.body import Body
from fitwright.piece.model import Plane
from fitwright.piece.path import Straight, Vector
from fitwright.piece.trim import nearest_axis, nearest_segment
from fitwright.stock import Section

Floats = NDArray[np.float64]
Box = tuple[Vector, Vector]

FACES_BACK_MM = 1e-9


def flat_plane(body: Body, end: int, other: Body) -> Plane | None:
    """The face of a flat-sided member that this end meets with most of its section; None if it meets none."""
    segment = nearest_segment(other, body.point_at(end))
    if not isinstance(segment, Straight):
        return None
    frame = other.frames[other.path.segments.index(segment)]
    corners = _corners(other.section)
    normals = _edge_normals(corners)
    points = segment.start + corners @ frame
    return _face_met(body, end, points, normals @ frame, np.roll(points, -1, axis=0), segment.direction)


def box_plane(body: Body, end: int, box: Box) -> Plane | None:
    """The face of an axis-aligned box (low, high) that this end meets; None if it meets none."""
    outward, origins = body.outward(end), _fibre_points(body, end)
    with np.errstate(divide="ignore"):
        entries = np.where(outward > 0, box[0] - body.point_at(end), box[1] - body.point_at(end)) / outward
    entries = np.where(np.abs(outward) < FACES_BACK_MM, -np.inf, entries)
    axis = int(np.argmax(entries))
    if not np.isfinite(entries[axis]) or len(origins) == 0:
        return None
    normal = np.sign(outward[axis]) * np.eye(3)[axis]
    return Plane(body.point_at(end) + entries[axis] * outward, normal)


def round_plane(body: Body, end: int, other: Body) -> Plane:
    """The plane along a round member that touches it where this end comes nearest: a saw cut, not a cope.

    Source: tangent plane of a cylinder, moved in as far as the nearest line of the section allows.
    """
    outward = body.outward(end)
    point, along = nearest_axis(other, body.point_at(end))
    normal = outward - (outward @ along) * along
    normal /= np.linalg.norm(normal)
    radius = (other.section.extents[1] - other.section.extents[0]) / 2
    beside = (_outline_points(body, end) - point) @ np.cross(along, normal)
    nearest = 0.0 if beside.min() <= 0 <= beside.max() else float(np.abs(beside).min())
    height = np.sqrt(max(radius**2 - nearest**2, 0.0))
    return Plane(point - height * normal, normal)


def _face_met(
    body: Body, end: int, points: Floats, normals: Floats, nexts: Floats, along: Vector
) -> Plane | None:
    outward, origins = body.outward(end), _fibre_points(body, end)
    area = body.section.fibres()[:, 2]
    facing = normals @ outward
    best: tuple[float, int] | None = None
    entries = np.full((len(points), len(origins)), np.inf)
    for k in np.flatnonzero(facing < -FACES_BACK_MM):
        at = ((points[k] - origins) @ normals[k]) / facing[k]
        edge = nexts[k] - points[k]
        part = ((origins + at[:, None] * outward - points[k]) @ edge) / float(edge @ edge)
        entries[k] = np.where((part >= -1e-9) & (part <= 1 + 1e-9), at, np.inf)
    first = np.argmin(entries, axis=0)
    met = np.isfinite(entries[first, np.arange(len(origins))])
    for k in range(len(points)):
        share = float(area[met & (first == k)].sum())
        if share > 0 and (best is None or share > best[0]):
            best = share, k
    return None if best is None else Plane(points[best[1]], -normals[best[1]])


def _corners(section: Section) -> Floats:
    """Corners (k, 2) of the section with its corner radii left out, counterclockwise."""
    u0, u1, v0, v1 = section.extents
    if section.shape == "angle":
        thick = section.dimensions["thickness"]
        return np.array([[0, 0], [u1, 0], [u1, thick], [thick, thick], [thick, v1], [0, v1]])
    return np.array([[u0, v0], [u1, v0], [u1, v1], [u0, v1]])


def _edge_normals(corners: Floats) -> Floats:
    edges = np.roll(corners, -1, axis=0) - corners
    normals = np.column_stack([edges[:, 1], -edges[:, 0]])
    return np.asarray(normals / np.linalg.norm(normals, axis=1)[:, None])


def _fibre_points(body: Body, end: int) -> Floats:
    return np.asarray(body.point_at(end) + body.section.fibres()[:, :2] @ body.frame_at(end))


def _outline_points(body: Body, end: int) -> Floats:
    return np.asarray(body.point_at(end) + body.section.outline() @ body.frame_at(end))
