"""From the line that the maker draws (a centreline, a face, the outside) to the line of the section's origin."""

from __future__ import annotations

from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from fitwright.job.model import Drawn, MemberSpec
from fitwright.piece.body import rotated
from fitwright.piece.path import Vector
from fitwright.piece.sections import outline_of
from fitwright.piece.vectors import UP, cross, size, unit
from fitwright.piece.wording import ToldError
from fitwright.stock import Section

Floats = NDArray[np.float64]

PARALLEL = 1e-6
ONE_PLANE = 0.9999  # cosine between directions that are one but for the rounding of what was written
SKEWED = 0.5  # how far from square two legs may be once turned across a slanted path, as a cosine


class DrawnError(ToldError):
    """A member whose drawing says too little or contradicts itself; the message is for the maker."""


def start_frame(spec: MemberSpec, direction: Vector) -> Floats:
    """Directions (2, 3) of the section's u and v at the start, where the path leaves along `direction` (3,).

    Unsaid, the wider side lies level, and along x on a member that stands; where the path turns in a plane on a slant,
    the nearest to that in the plane or square to it, as a frame is mitred and a bar is bent.
    Raises DrawnError for an angle without legs, or a direction that runs along the member.
    """
    if spec.stock.section.shape == "angle":
        return _angle_frame(spec, direction)
    if spec.wide is not None:
        wide = _square_to(np.array(spec.wide), direction, "its wider side")
    elif abs(direction @ UP) > 0.9:
        wide = _with_plane(_square_to(np.array([1.0, 0.0, 0.0]), direction, "its wider side"), direction, spec)
    else:
        wide = _with_plane(unit(cross(direction, UP)), direction, spec)
    return np.array([wide, cross(direction, wide)])


def _with_plane(wide: Vector, direction: Vector, spec: MemberSpec) -> Vector:
    """A direction across a path (3,) turned to lie in the plane of the path, or square to it, whichever is nearer."""
    turns = [axis for axis in _corner_axes(np.array(spec.points, dtype=float), spec.closed) if axis is not None]
    if not turns or any(abs(float(axis @ turns[0])) < ONE_PLANE for axis in turns):
        return wide
    near = max((turns[0], cross(turns[0], direction)), key=lambda way: abs(float(way @ wide)))
    lies = float(near @ wide)
    return wide if abs(lies) > ONE_PLANE else np.sign(lies) * near


def origin_line(spec: MemberSpec, frame: Floats) -> Floats:
    """Vertices (n, 3) of the line of the section's origin, from the points and what they lie on [mm].

    Raises DrawnError for an outside path that does not turn one way in one plane.
    """
    points = np.array(spec.points, dtype=float)
    section = spec.stock.section
    offset = -_followed(spec, section, frame)
    if spec.drawn is Drawn.OUTSIDE:
        offset = offset + _inward(spec, points, section, frame)
    return _shifted(points, spec.closed, offset)


def support(section: Section, frame: Floats, direction: Vector) -> float:
    """How far the section reaches from its origin along a unit direction (3,) [mm]."""
    u, v = frame @ direction
    if section.is_round:
        return float(section.extents[1] * np.hypot(u, v))
    return float((outline_of(section, 72) @ np.array([u, v])).max())


def plane_normal(points: Floats, closed: bool) -> Vector | None:
    """The unit normal (3,) of the plane of a path that turns, by its first corner; None for a straight one."""
    for axis in _corner_axes(points, closed):
        if axis is not None:
            return axis
    return None


def _angle_frame(spec: MemberSpec, direction: Vector) -> Floats:
    if spec.legs is None:
        raise DrawnError(
            "say where the legs of the angle point, such as legs: [back, down] "
            "(left, right, front, back, up, down or a vector)"
        )
    first = _square_to(np.array(spec.legs[0]), direction, "its first leg")
    second = _square_to(np.array(spec.legs[1]), direction, "its second leg")
    if abs(first @ second) > SKEWED:
        raise DrawnError("the two legs of the angle must be square to one another")
    second = second - (second @ first) * first
    return np.array([first, second / np.linalg.norm(second)])


def _square_to(wanted: Vector, direction: Vector, what: str) -> Vector:
    across = wanted - (wanted @ direction) * direction
    length = size(across)
    if length < 0.05 * size(wanted) or length < PARALLEL:
        raise DrawnError("{what} points along the member itself: give a direction across it", what=what)
    return across / length


def _followed(spec: MemberSpec, section: Section, frame: Floats) -> Vector:
    """From the section's origin to the line that the path follows (3,) [mm]."""
    u0, u1, v0, v1 = section.extents
    if spec.follows == "centre":
        return np.asarray((u0 + u1) / 2 * frame[0] + (v0 + v1) / 2 * frame[1])
    if isinstance(spec.follows, str):
        return np.zeros(3)
    total, along = np.zeros(3), cross(frame[0], frame[1])
    for said in spec.follows:
        across = _square_to(np.array(said), along, "the face that it follows")
        total = total + across * support(section, frame, across)
    return total


def _inward(spec: MemberSpec, points: Floats, section: Section, frame: Floats) -> Vector:
    axes = _corner_axes(points, spec.closed)
    normal = plane_normal(points, spec.closed)
    if normal is None:
        return np.zeros(3)
    for k, axis in enumerate(axes):
        if axis is not None and axis @ normal < 1 - PARALLEL:
            at = (k + 1) % len(points)
            raise DrawnError(
                "an outside path must turn one way in one plane, so that its inside is clear, and it turns another way "
                f"at point {at + 1}, {{point}}: draw this one by its centreline with path",
                point=points[at],
            )
    first = points[1] - points[0]
    inside = cross(normal, unit(first))
    return np.asarray(inside * support(section, frame, -inside))


def _corner_axes(points: Floats, closed: bool) -> list[Vector | None]:
    """Turning axis at each corner (None where the path runs straight on)."""
    legs = np.roll(points, -1, axis=0) - points if closed else np.diff(points, axis=0)
    pairs = zip(legs, np.roll(legs, -1, axis=0), strict=True) if closed else pairwise(legs)
    axes: list[Vector | None] = []
    for before, after in pairs:
        axis = cross(before, after)
        turn = size(axis)
        axes.append(axis / turn if turn > PARALLEL * size(before) * size(after) else None)
    return axes


def _shifted(points: Floats, closed: bool, offset: Vector) -> Floats:
    """The path beside a path: each leg moved by the offset (3,), which turns with the bends; legs meet again."""
    if size(offset) < PARALLEL:
        return points
    axes = _corner_axes(points, closed)
    legs = np.roll(points, -1, axis=0) - points if closed else np.diff(points, axis=0)
    units = legs / np.linalg.norm(legs, axis=1)[:, None]
    shifted = points + offset
    corners = [*range(1, len(points)), 0] if closed else list(range(1, len(points) - 1))
    for k, axis in zip(corners, axes, strict=True):
        if axis is not None:
            before, after = units[k - 1], units[k % len(units)]
            here = offset
            offset = rotated(offset, axis, float(np.arctan2(size(cross(before, after)), before @ after)))
            shifted[k] = points[k] + _mitred(here, axis, before, after)
        else:
            shifted[k] = points[k] + offset
    if not closed:
        shifted[-1] = points[-1] + offset
    return shifted


def _mitred(offset: Vector, axis: Vector, before: Vector, after: Vector) -> Vector:
    beside, beyond = cross(axis, before), cross(axis, after)
    mitre = (beside + beyond) / (1 + beside @ beyond)
    return np.asarray((offset @ axis) * axis + (offset @ beside) * mitre)
