"""Which of two members that meet at a corner ends at the side of the other."""

from __future__ import annotations

import numpy as np

from fitwright.piece.model import CutKind, Joint, JointKind, Member

SHORT_MM = 0.5
"""An end that stops more than this short of where it was drawn is trimmed to the side of another member."""


def second_stops_short(joint: Joint, first: Member, second: Member) -> int | None:
    """The end of a joint's second member where it is that one which stops at the side of the first.

    So at a corner where the first runs on to the outside. None where the first is the branch, or both are mitred.
    """
    if joint.kind not in (JointKind.CORNER, JointKind.BOLTED) or joint.end is None or second.path.closed:
        return None
    if joint.first == joint.second:
        return None
    end = int(np.argmin([float(np.linalg.norm(second.body.point_at(k) - joint.point)) for k in (0, 1)]))
    far = float(np.linalg.norm(second.body.point_at(end) - joint.point)) > 2 * first.body.reach
    cut = second.ends[end]
    short = cut.kind is not CutKind.MITRE and cut.longest < -SHORT_MM
    return end if short and not far and first.ends[joint.end].longest >= -SHORT_MM else None
