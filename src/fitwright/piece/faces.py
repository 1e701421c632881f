"""The cutting plane at an end that meets a flat face, or a round outside that it is not fitted to."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from fitwright.piece.body import Body, rotated
from fitwright.piece.model import Plane
from fitwright.piece.path import Arc, Vector
from fitwright.piece.sections import closely_of, fibres_of, outline_of
from fitwright.piece.trim import march_stop, nearest_axis, nearest_segment, segment_gap, straight_met, turned_to
from fitwright.piece.vectors import cross, unit
from fitwright.stock import Section

Floats = NDArray[np.float64]
Box = tuple[Vector, Vector]

FACES_BACK = 1e-9
MET_MM = 1e-3
ON_FACE_MM = 0.05
CLOSE_MM = 2.5
ANGLE_FACES, INSIDE_ANGLE = 6, (2, 3)  # of the faces of an angle, in the order of its corners


def flat_planes(body: Body, end: int, other: Body) -> tuple[Plane, ...]:
    """The face of a flat-sided member that most of this end comes to first, or both inside an angle; none if missed."""
    point = body.point_at(end)
    segment = nearest_segment(other, point)
    frame = other.frames[other.path.segments.index(segment)]
    start = segment.start
    if isinstance(segment, Arc):
        turned = turned_to(segment, point)
        start, frame = segment.at(np.array([turned]))[0], rotated(frame, segment.axis, turned)
    corners = _corners(other.section)
    points = start + corners @ frame
    met = _faces_met(body, end, points, _edge_normals(corners) @ frame, np.roll(points, -1, axis=0))
    planes = tuple(Plane(points[k], -(_edge_normals(corners)[k] @ frame)) for k in met)
    if _beside_bend(other, point, body.reach):
        planes = tuple(_pulled_back(plane, body, end, other) for plane in planes)
    return planes


def _beside_bend(other: Body, point: Vector, reach: float) -> bool:
    within = reach + 2 * other.reach
    return any(isinstance(s, Arc) and segment_gap(s, point) < within for s in other.path.segments)


def box_plane(body: Body, end: int, box: Box) -> Plane | None:
    """The face of an axis-aligned box (low, high) that most of this end meets; None if it meets none.

    A straight that lies in the box, or along its edge, for all its length does not come to a face.
    """
    outward, origins = body.outward(end), _fibre_points(body, end)
    facing = np.abs(outward) > FACES_BACK
    entries = np.full(origins.shape, -np.inf)
    near, far = np.where(outward > 0, box[0], box[1]), np.where(outward > 0, box[1], box[0])
    entries[:, facing] = ((near - origins) / np.where(facing, outward, 1.0))[:, facing]
    leaves = np.where(facing, (far - origins) / np.where(facing, outward, 1.0), np.inf).min(axis=1)
    beside = ((origins < box[0]) | (origins > box[1]))[:, ~facing].any(axis=1)
    hit = (entries.max(axis=1) <= leaves + 1e-9) & ~beside
    if not hit.any():
        return None
    shares = np.bincount(np.argmax(entries, axis=1)[hit], fibres_of(body.section)[hit, 2], 3)
    axis = int(np.argmax(shares))
    point = body.point_at(end).astype(float).copy()
    if (point[axis] - near[axis]) / outward[axis] > body.path.segments[-end].length:
        return None
    point[axis] = near[axis]
    return Plane(point, np.sign(outward[axis]) * np.eye(3)[axis])


def round_plane(body: Body, end: int, other: Body) -> Plane:
    """The plane along a round member that touches it where this end comes nearest: a saw cut, not a cope.

    Source: tangent plane of a cylinder, moved in as far as the nearest line of the section allows.
    """
    outward, point = body.outward(end), body.point_at(end)
    centre, along = nearest_axis(other, point)
    normal = unit(outward - (outward @ along) * along)
    radius = other.section.extents[1]
    if straight_met(point, other) is None:
        return _pulled_back(Plane(centre, normal), body, end, other)
    beside = (point + outline_of(body.section, 72) @ body.frame_at(end) - centre) @ cross(along, normal)
    nearest = 0.0 if beside.min() <= 0 <= beside.max() else float(np.abs(beside).min())
    return Plane(centre - np.sqrt(max(radius**2 - nearest**2, 0.0)) * normal, normal)


def _pulled_back(plane: Plane, body: Body, end: int, other: Body) -> Plane:
    """The plane moved back until all of this end stops short of a bent member."""
    uv = np.vstack([closely_of(body.section, CLOSE_MM), fibres_of(body.section)[:, :2], np.zeros((1, 2))])
    stop = march_stop(body, end, uv, other)
    points = body.point_at(end) + uv @ body.frame_at(end) + stop[:, None] * body.outward(end)
    met = other.distance(points) < MET_MM
    if not met.any():
        return plane
    back = float(((points[met] - plane.point) @ plane.normal).min())
    return Plane(plane.point + back * plane.normal, plane.normal)


def _faces_met(body: Body, end: int, points: Floats, normals: Floats, nexts: Floats) -> list[int]:
    """Of the faces from `points` to `nexts` (k, 3), the one that most of the section's fibres come to first.

    Where that is a face inside an angle and the face beside it is met too, both: neither leg may be run into; but the
    edge of a leg where the end is drawn just to it.
    """
    outward, origins = body.outward(end), _fibre_points(body, end)
    area = fibres_of(body.section)[:, 2]
    facing = normals @ outward
    entries = np.full((len(points), len(origins)), np.inf)
    for k in np.flatnonzero(facing < -FACES_BACK):
        at = ((points[k] - origins) @ normals[k]) / facing[k]
        edge = nexts[k] - points[k]
        part = ((origins + at[:, None] * outward - points[k]) @ edge) / float(edge @ edge)
        entries[k] = np.where((part >= -1e-9) & (part <= 1 + 1e-9), at, np.inf)
    first = np.argmin(entries, axis=0)
    met = np.isfinite(entries[first, np.arange(len(origins))])
    if not met.any():
        return []
    shares = np.bincount(first[met], area[met], len(points))
    best = int(np.argmax(shares))
    if len(points) != ANGLE_FACES or best not in INSIDE_ANGLE:
        return [best]
    reached = entries[first, np.arange(len(origins))]
    edges = met & (np.abs(reached) < ON_FACE_MM) & ~np.isin(first, INSIDE_ANGLE)
    if edges.any() and reached[met].min() > -ON_FACE_MM:
        return [int(first[edges][0])]  # drawn to the edge of a leg: further in it would run into that leg
    return [k for k in INSIDE_ANGLE if shares[k] > 0]


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
    return np.asarray(body.point_at(end) + fibres_of(body.section)[:, :2] @ body.frame_at(end))
