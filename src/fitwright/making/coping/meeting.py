"""What an end is fitted to."""

from __future__ import annotations

import numpy as np

from fitwright.piece.model import Joint, JointKind, Member, Piece

AT_AN_END = (JointKind.CORNER, JointKind.BUTT)


def meets(member: Member, end: int, piece: Piece) -> tuple[str, ...]:
    """Marks of the members that an end meets, each once, in the order of the joints; what it is coped to first."""
    indices = list(member.ends[end].copes)
    indices += [other for joint in piece.joints if (other := _other(joint, member, end)) is not None]
    return tuple(dict.fromkeys(piece.mark_of[piece.members[index].name] for index in indices))


def _other(joint: Joint, member: Member, end: int) -> int | None:
    """The member at the other side of a joint, when the joint is at this end."""
    if joint.first == member.index and joint.end == end:
        return joint.second
    if joint.second == member.index and joint.kind in AT_AN_END and _nearer(joint, member) == end:
        return joint.first
    return None


def _nearer(joint: Joint, member: Member) -> int:
    gaps = [float(np.linalg.norm(joint.point - member.body.point_at(end))) for end in (0, 1)]
    return int(np.argmin(gaps))
