"""What the joints have to pass: forces and moments at the end of a branch, case by case."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from fitwright.mechanics.axes import local_axes, skew
from fitwright.mechanics.framing import Framed, JointPlace
from fitwright.mechanics.model import Floats
from fitwright.piece.model import Joint, Member
from fitwright.piece.trim import segment_gap
from fitwright.stock import Section


@dataclass(frozen=True, eq=False)
class JointForce:
    """The force (3, k) [N] and moment (3, k) [N mm] of the joint on its first member, global, at `point` (3,) [mm].

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
    """Sum over the first member's element ends at the joint, about the place of the first of them."""
    at = framed.model.ends
    element, side = place.ends[0]
    point = at[element, side]
    force = np.zeros((3, ends.shape[2]))
    moment = np.zeros_like(force)
    for e, end in place.ends:
        push = rotation[e].T @ ends[e, 6 * end : 6 * end + 3]
        force += push
        moment += rotation[e].T @ ends[e, 6 * end + 3 : 6 * end + 6]
        if (e, end) != (element, side):
            moment += skew(at[e, end] - point) @ push
    out = rotation[element][0] * (1.0 if side == 1 else -1.0)
    return JointForce(framed.piece.joints[place.joint], force, moment, point, out)


def span_along(member: Member, section: Section, point: Floats, direction: Floats) -> float:
    """How wide a member's outline is along a direction (3,) where the member is nearest to a point (3,) [mm]."""
    gaps = [segment_gap(segment, point) for segment in member.path.segments]
    frame = member.body.frames[int(np.argmin(gaps))]
    return float(np.ptp(section.outline() @ (frame @ direction)))
