"""The length-rotation-angle table of a path, and the path of a table."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from fitwright.making.bending.errors import BendError
from fitwright.piece.path import Arc, Path, Straight, Vector

Floats = NDArray[np.float64]

SHARP_RAD = 1e-5
SAME_CIRCLE_MM = 1e-3
# A vertex stands for less than half a turn; larger bends are drawn as several equal ones.
LARGEST_AT_A_VERTEX = math.radians(120)


@dataclass(frozen=True)
class Bend:
    """One bend: the straight before it [mm], the rotation of its plane from the last bend's [rad], angle, radius.

    rotation is right-handed about the direction of travel, in (-pi, pi]; 0 for the first bend.
    """

    straight_before: float
    rotation: float
    angle: float
    radius: float

    @property
    def arc(self) -> float:
        """Length of the arc on the path [mm]."""
        return self.radius * self.angle


@dataclass(frozen=True)
class BendTable:
    """Length, rotation, angle of each bend in order of travel, and the straight after the last one [mm]."""

    bends: tuple[Bend, ...]
    last_straight: float

    @property
    def straights(self) -> tuple[float, ...]:
        """The straights before, between and after the bends [mm]."""
        return (*(bend.straight_before for bend in self.bends), self.last_straight)

    @property
    def length(self) -> float:
        """Length along the path [mm]."""
        return sum(self.straights) + sum(bend.arc for bend in self.bends)

    def reversed(self) -> BendTable:
        """The same member told from its other end: rotations keep their sign.

        Both the direction of travel and the bends' planes turn over, which leaves a rotation as it was.
        """
        turned = reversed(self.bends)
        straights = self.straights[::-1]
        rotations = (0.0, *(bend.rotation for bend in self.bends[:0:-1]))
        bends = (
            replace(bend, straight_before=straight, rotation=rotation)
            for bend, straight, rotation in zip(turned, straights[:-1], rotations, strict=True)
        )
        return BendTable(tuple(bends), straights[-1])

    def mirrored(self) -> BendTable:
        """The other hand: every rotation changes its sign."""
        return replace(self, bends=tuple(replace(bend, rotation=_wrapped(-bend.rotation)) for bend in self.bends))


@dataclass(frozen=True, eq=False)
class Pose:
    """Where a table starts: point (3,) [mm], direction of travel (3,) and axis of the first bend (3,), unit vectors."""

    start: Vector
    direction: Vector
    axis: Vector


AT_ORIGIN = Pose(np.zeros(3), np.array([1.0, 0.0, 0.0]), np.array([0.0, 0.0, 1.0]))


def table_of(path: Path) -> BendTable:
    """The length-rotation-angle table of a path; no bends for a straight one.

    Arcs that follow each other on one circle are one bend, so that a ring is one bend of a full turn.

    Raises BendError when the path has a sharp corner: that is a mitre, not a bend.
    Source: tangent length R tan(angle / 2); rotation between bend planes from the cross products of successive
    leg directions (vector geometry).
    """
    bends: list[Bend] = []
    straight, last = 0.0, None
    for number, segment in enumerate(path.segments):
        if number:
            _refuse_sharp(path.segments[number - 1], segment)
        if isinstance(segment, Straight):
            straight += segment.length
        elif last is not None and straight == 0 and _same_circle(last, segment):
            bends[-1] = replace(bends[-1], angle=bends[-1].angle + segment.angle)
            last = segment
        else:
            rotation = 0.0 if last is None else _rotation(last.axis, segment.axis, _leaving(last))
            bends.append(Bend(straight, rotation, segment.angle, segment.radius))
            straight, last = 0.0, segment
    return BendTable(tuple(bends), straight)


def pose_of(path: Path) -> Pose:
    """Where the path starts, which way it goes and the axis of its first bend (any across, when straight)."""
    first = path.segments[0]
    direction = _entering(first)
    arc = next((segment for segment in path.segments if isinstance(segment, Arc)), None)
    axis = arc.axis if arc is not None else _any_across(direction)
    return Pose(path.start, direction, axis)


def path_of(table: BendTable, pose: Pose = AT_ORIGIN) -> Path:
    """The path that a table makes, from a pose; the opposite of `table_of`.

    Raises BendError for an angle or radius that is not positive, or a table without any length.
    """
    vertices, radii = [pose.start], [0.0]
    at, direction, axis = pose.start, pose.direction, pose.axis
    for number, bend in enumerate(table.bends):
        _check(bend, number + 1)
        axis = turned(axis, direction, bend.rotation)
        at = at + direction * bend.straight_before
        count = max(1, math.ceil(bend.angle / LARGEST_AT_A_VERTEX))
        for _ in range(count):
            setback = bend.radius * math.tan(bend.angle / count / 2)
            vertices.append(at + direction * setback)
            radii.append(bend.radius)
            direction = turned(direction, axis, bend.angle / count)
            at = vertices[-1] + direction * setback
    vertices.append(at + direction * table.last_straight)
    return Path(np.array(vertices), np.array([*radii, 0.0]))


def turned(vector: Vector, axis: Vector, angle: float) -> Vector:
    """A vector (3,) turned right-handed about a unit axis (3,) by an angle [rad].

    Source: Rodrigues' rotation formula.

    >>> turned(np.array([1.0, 2.0, 3.0]), np.array([0.0, 0.0, 1.0]), math.radians(30)).round(6).tolist()
    [-0.133975, 2.232051, 3.0]
    """
    cos, sin = math.cos(angle), math.sin(angle)
    result: Vector = vector * cos + np.cross(axis, vector) * sin + axis * (axis @ vector) * (1 - cos)
    return result


def _check(bend: Bend, number: int) -> None:
    if bend.angle <= 0 or bend.radius <= 0:
        raise BendError(
            f"bend {number} has an angle of {math.degrees(bend.angle):.2f}° on a radius of {bend.radius:.1f} mm: "
            "both must be more than 0; to bend the other way give a rotation of 180°"
        )
    if bend.straight_before < 0:
        raise BendError(f"the straight before bend {number} is {bend.straight_before:.1f} mm: it cannot be negative")


def _refuse_sharp(before: Straight | Arc, after: Straight | Arc) -> None:
    arriving, going = _leaving(before), _entering(after)
    if np.linalg.norm(np.cross(arriving, going)) > SHARP_RAD:
        point = ", ".join(f"{x:.1f}" for x in after.start)
        raise BendError(
            f"the path has a sharp corner at ({point}) mm: give it a bend radius, "
            "or make two parts of it that meet in a mitre"
        )


def _entering(segment: Straight | Arc) -> Vector:
    return segment.direction if isinstance(segment, Straight) else segment.tangent(np.zeros(1))[0]


def _leaving(segment: Straight | Arc) -> Vector:
    return segment.direction if isinstance(segment, Straight) else segment.tangent(np.array([segment.angle]))[0]


def _same_circle(one: Arc, other: Arc) -> bool:
    apart = float(np.linalg.norm(one.centre - other.centre)) + abs(one.radius - other.radius)
    return apart < SAME_CIRCLE_MM and float(one.axis @ other.axis) > 0


def _rotation(before: Vector, after: Vector, travel: Vector) -> float:
    """Angle from one bend axis to the next about the direction of travel, in (-pi, pi]."""
    return _wrapped(math.atan2(float(np.cross(before, after) @ travel), float(before @ after)))


def _wrapped(angle: float) -> float:
    """In (-pi, pi]; half a turn is always positive, and nearly nothing is nothing."""
    if abs(angle) < 1e-12:
        return 0.0
    return math.pi if angle < -math.pi + 1e-9 else angle


def _any_across(direction: Vector) -> Vector:
    across = np.cross(direction, np.eye(3)[int(np.argmin(np.abs(direction)))])
    unit: Vector = across / np.linalg.norm(across)
    return unit
