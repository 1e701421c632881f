"""How far along the member the base line of a template goes."""

from __future__ import annotations

from math import ceil, floor

from fitwright.making.coping.model import Measured, Placement
from fitwright.piece.model import Member
from fitwright.piece.path import Arc, Straight

BELOW_MM = 24.0  # of paper under the shortest point: enough to lie straight and to be written on
LEAST_BELOW_MM = 2.0
SPARE_MM = 1e-6


def placed(member: Member, end: int, shortest: float, step: float) -> tuple[float, Placement]:
    """The level of the base line [mm beyond the drawn end, so negative], and how to find it on the member.

    shortest: level of the lowest point of the lines; step: distances are whole numbers of it where there is room [mm].
    Straight members are measured from the end of the blank, which is sawn to its length from tip to tip; bent ones
    from the tangent point, since their ends are trimmed after bending.
    """
    segment = member.path.segments[0 if end == 0 else -1]
    if not member.path.bent:
        return _from_tip(member, member.ends[end].longest, shortest, step)
    if isinstance(segment, Arc):
        return shortest - LEAST_BELOW_MM, Placement(Measured.TANGENT, shortest - LEAST_BELOW_MM, into_bend=True)
    return _from_tangent(segment, shortest, step)


def _from_tip(member: Member, tip: float, shortest: float, step: float) -> tuple[float, Placement]:
    distance = ceil((tip - shortest + BELOW_MM) / step - SPARE_MM) * step
    if distance > member.cut_length:
        distance = max(member.cut_length, tip - shortest + LEAST_BELOW_MM)
    return tip - distance, Placement(Measured.TIP, distance)


def _from_tangent(segment: Straight, shortest: float, step: float) -> tuple[float, Placement]:
    tangent = -segment.length
    room = shortest - tangent
    if room < LEAST_BELOW_MM:
        level = shortest - LEAST_BELOW_MM
        return level, Placement(Measured.TANGENT, level - tangent, into_bend=True)
    distance = max(floor((room - BELOW_MM) / step + SPARE_MM), 0) * step
    return tangent + distance, Placement(Measured.TANGENT, distance)
