"""What the bent part of a tube runs into while the next bend is made."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

from fitwright.making.bending.model import Collision
from fitwright.making.bending.table import BendTable, Pose, path_of, turned
from fitwright.piece.body import sampled
from fitwright.shop import Bender

Floats = NDArray[np.float64]

SPACING_MM = 15.0
SWING_RAD = math.radians(5)
TOUCH_MM = 1.0
ALONG = np.array([1.0, 0.0, 0.0])
UP = np.array([0.0, 0.0, 1.0])


def collisions(
    table: BendTable, angles: tuple[float, ...], od: float, bender: Bender | None, closed: bool = False
) -> tuple[Collision, ...]:
    """Everything that the bent part meets, step by step: floor, machine, die, the tube still to be bent.

    table: of the blank, allowances included; angles: to which each bend is made [rad]; od: outside size [mm].
    The bent part is clamped to the die and swings with it; the tube still straight comes in behind.

    Holds for a machine that bends toward its die in a level plane; the tube as its centreline with half its size
    around; swing sampled every 5 degrees, the tube every 15 mm. Clamp and follower are not modelled beyond the box
    that the shop gives.
    Source: kinematics of rotary draw bending (common practice).
    """
    found: list[Collision] = []
    for k in range(1, len(table.bends)):
        points = bent_part(table, k)
        whats = [_floor(points, od, bender), *_swinging(table, k, points, angles[k], od, bender, closed)]
        found.extend(Collision(k + 1, what) for what in whats if what)
    return tuple(found)


def bent_part(table: BendTable, k: int) -> Floats:
    """Points (n, 3) [mm] along what is bent before bend k (from 0), in the machine's axes, before the swing.

    The tangent point is the origin; x runs to the starting end, y to the die, z up.
    """
    bent = BendTable(table.bends[:k], table.bends[k].straight_before).reversed()
    # The next bend turns about -z as the tube travels along -x; the last one lies back by the rotation between them.
    axis_now = -UP
    axis_last = turned(axis_now, -ALONG, -table.bends[k].rotation)
    path = path_of(bent, Pose(np.zeros(3), ALONG, -axis_last))
    return np.vstack(
        [
            sampled(segment, np.linspace(0, 1, max(2, math.ceil(segment.length / SPACING_MM) + 1)))
            for segment in path.segments
        ]
    )


def _floor(points: Floats, od: float, bender: Bender | None) -> str:
    if bender is None or bender.height is None:
        return ""
    below = -float(points[:, 2].min()) + od / 2 - bender.height
    return f"the bent end reaches {below:.0f} mm below the floor" if below > TOUCH_MM else ""


def _swinging(
    table: BendTable, k: int, points: Floats, angle: float, od: float, bender: Bender | None, closed: bool
) -> list[str]:
    radius = table.bends[k].radius
    whats = ["the bent end lies across the die"] if _in_die(points, radius, od) else []
    last_of_loop = closed and k == len(table.bends) - 1
    behind = _behind(table, k) - (od if last_of_loop else 0.0)
    swings = np.linspace(0, angle, max(2, math.ceil(angle / SWING_RAD) + 1))
    swung = [swing_with_die(points, radius, swing) for swing in swings]
    if any(_on_tube(place, behind, od) for place in swung):
        whats.append("the bent end swings into the tube that is still to be bent")
    hit = next((swing for swing, place in zip(swings, swung, strict=True) if _in_body(place, od, bender)), None)
    if hit is not None:
        whats.append(f"the bent end meets the machine when it has swung {math.degrees(hit):.0f}°")
    return whats


def _behind(table: BendTable, k: int) -> float:
    """Length of tube behind bend k once it is made [mm]."""
    return table.last_straight + sum(bend.straight_before + bend.arc for bend in table.bends[k + 1 :])


def swing_with_die(points: Floats, radius: float, swing: float) -> Floats:
    """The points (n, 3) turned with the die about its centre (0, radius) by an angle [rad]."""
    cos, sin = math.cos(swing), math.sin(swing)
    x, y = points[:, 0], points[:, 1] - radius
    return np.column_stack([x * cos - y * sin, x * sin + y * cos + radius, points[:, 2]])


def _in_die(points: Floats, radius: float, od: float) -> bool:
    near = np.abs(points[:, 2]) < od
    return bool((np.hypot(points[:, 0], points[:, 1] - radius)[near] < radius - TOUCH_MM).any())


def _on_tube(points: Floats, behind: float, od: float) -> bool:
    beside = np.hypot(points[:, 1], points[:, 2]) < od - TOUCH_MM
    return bool((beside & (points[:, 0] < -od / 2) & (points[:, 0] > -behind)).any())


def _in_body(points: Floats, od: float, bender: Bender | None) -> bool:
    if bender is None or bender.body is None:
        return False
    low, high = (np.array(corner) for corner in bender.body)
    inside = (points > low - od / 2) & (points < high + od / 2)
    return bool(inside.all(axis=1).any())
