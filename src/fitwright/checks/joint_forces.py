"""What the joints have to pass: forces and moments at the end of a branch, case by case."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from fitwright.mechanics.axes import local_axes, skew
from fitwright.mechanics.framing import Framed, JointPlace
from fitwright.mechanics.framing.branch import second_stops_short
from fitwright.mechanics.model import Floats
from fitwright.piece.model import Joint, Member
from fitwright.piece.sections import outline_of
from fitwright.piece.trim import segment_gap
from fitwright.stock import Section

OUTLINE_POINTS = 72  # what a section gives unless asked for more or less


@dataclass(frozen=True, eq=False)
class JointForce:
    """The force (3, k) [N] and moment (3, k) [N mm] of the joint on its first member, global, at `point` (3,) [mm].

    The first member is the branch: the one that ends at the side of the other, where one does.

    axis: (3,) unit vector along the first member, out of its end.
    """

    joint: Joint
    force: Floats
    moment: Floats
    point: Floats
    axis: Floats


def joint_forces(framed: Framed, ends: Floats) -> tuple[JointForce, ...]:
    """The forces of every joint of the frame but bolted laps; ends: (m, 12, k) of nodes on element ends, local."""
    rotation = local_axes(framed.model)[1]
    places = [place for place in framed.joints if place.ends and place.link is None]
    return tuple(_passed(framed, place, ends, rotation) for place in places)


def _passed(framed: Framed, place: JointPlace, ends: Floats, rotation: Floats) -> JointForce:
    """Sum over the branch's element ends at the joint, about the place of the first of them."""
    at, (joint, places) = framed.model.ends, _branch(framed, place)
    element, side = places[0]
    point = at[element, side]
    force = np.zeros((3, ends.shape[2]))
    moment = np.zeros_like(force)
    for e, end in places:
        push = rotation[e].T @ ends[e, 6 * end : 6 * end + 3]
        force += push
        moment += rotation[e].T @ ends[e, 6 * end + 3 : 6 * end + 6]
        if (e, end) != (element, side):
            moment += skew(at[e, end] - point) @ push
    out = rotation[element][0] * (1.0 if side == 1 else -1.0)
    return JointForce(joint, force, moment, point, out)


def _branch(framed: Framed, place: JointPlace) -> tuple[Joint, tuple[tuple[int, int], ...]]:
    """The joint with its branch as the first member, and the element ends of the branch at it."""
    joint = framed.piece.joints[place.joint]
    members = framed.piece.members
    end = second_stops_short(joint, members[joint.first], members[joint.second])
    if end is None:
        return joint, place.ends
    own = framed.elements_of[joint.second]
    return replace(joint, first=joint.second, second=joint.first, end=end), ((int(own[-end]), end),)


def span_along(member: Member, section: Section, point: Floats, direction: Floats) -> float:
    """How wide a member's outline is along a direction (3,) where the member is nearest to a point (3,) [mm]."""
    gaps = [segment_gap(segment, point) for segment in member.path.segments]
    frame = member.body.frames[int(np.argmin(gaps))]
    return float(np.ptp(outline_of(section, OUTLINE_POINTS) @ (frame @ direction)))
