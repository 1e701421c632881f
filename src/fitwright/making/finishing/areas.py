"""True areas: the outside of every trimmed part, less what other parts cover of it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from fitwright.making.finishing.model import PartArea
from fitwright.making.finishing.patches import Floats, Patches, patches_of, solid_of
from fitwright.piece.model import Board, Member, Panel, Piece

OFF_MM = 0.5  # a patch is covered by what lies this near over it
TOUCH_MM = 0.1
NEAR = 2.0  # of the section's reach: a joint this near to an end is at that end


def areas_of(piece: Piece) -> tuple[PartArea, ...]:
    """The areas of every part that can be coated: members, then panels; sleeves lie inside and have none.

    Holds to about one per cent: the outside is summed exactly along the trimmed lines, what is covered is sampled.
    """
    members: dict[str, list[Member]] = {}
    for member in piece.members:
        if member.sleeve_of is None:
            members.setdefault(member.part, []).append(member)
    found = [_members_area(piece, part, some) for part, some in members.items()]
    return (*found, *(_panels_area(piece, part, some) for part, some in piece.panels_by_part.items()))


def _members_area(piece: Piece, part: str, members: Sequence[Member]) -> PartArea:
    patched = [patches_of(piece, member) for member in members]
    covers = [_covered(piece, member, patches) for member, patches in zip(members, patched, strict=True)]
    own = sum(float(patches.areas.sum()) for patches in patched)
    return PartArea(
        part=part,
        marks=_marks(piece, [member.name for member in members]),
        count=len(members),
        metal=members[0].stock.material.is_metal,
        outside=own + sum(_free_ends(piece, member) * member.stock.section.area for member in members),
        joints=sum(cover.joints for cover in covers),
        panels=sum(cover.panels for cover in covers),
        rests=sum(cover.rests for cover in covers),
    )


def outside(piece: Piece, member: Member) -> float:
    """The outside of one trimmed member, with the metal that shows at its free ends [mm2].

    Source: each strip of the outline times its own length; bends by the radius at that strip (Pappus).
    """
    return float(patches_of(piece, member).areas.sum()) + _free_ends(piece, member) * member.stock.section.area


def _free_ends(piece: Piece, member: Member) -> int:
    """How many ends show their wall: no joint is there, of this member with another or of another with it."""
    if member.path.closed:
        return 0
    own = [joint.point for joint in piece.joints if member.index in (joint.first, joint.second)]
    ends = (member.body.point_at(end) for end in (0, 1))
    near = NEAR * member.body.reach
    return sum(all(float(np.linalg.norm(point - at)) > near for point in own) for at in ends)


@dataclass(frozen=True)
class _Cover:
    joints: float
    panels: float
    rests: float


def _covered(piece: Piece, member: Member, patches: Patches) -> _Cover:
    """What covers a member [mm2]; a patch under two things counts once, for the first of them."""
    points = patches.points + OFF_MM * patches.normals
    under = _under_members(piece, member, points)
    joints = float(patches.areas[under].sum())
    fixed = ~under & _under_boards(points, [p for p in piece.panels if _stays(p)])
    loose = ~under & ~fixed & _under_boards(points, [p for p in piece.panels if not _stays(p)])
    return _Cover(joints, float(patches.areas[fixed].sum()), float(patches.areas[loose].sum()))


def _stays(panel: Panel) -> bool:
    return panel.removable is None and panel.fastened != "rests"


def _under_members(piece: Piece, member: Member, points: Floats) -> np.ndarray[tuple[int], np.dtype[np.bool_]]:
    under = np.zeros(len(points), dtype=bool)
    low, high = points.min(axis=0), points.max(axis=0)
    for other in piece.members:
        if other.index == member.index or other.sleeve_of is not None:
            continue
        solid = solid_of(piece, other)
        if (solid.box[0] > high).any() or (solid.box[1] < low).any():
            continue
        near = ~under & ((points >= solid.box[0]) & (points <= solid.box[1])).all(axis=1)
        if near.any():
            under[near] = solid.depth(points[near]) > 0
    return under


def _under_boards(points: Floats, panels: Sequence[Panel]) -> np.ndarray[tuple[int], np.dtype[np.bool_]]:
    under = np.zeros(len(points), dtype=bool)
    for panel in panels:
        for board in panel.boards:
            under |= ((points > board.low) & (points < board.high)).all(axis=1)
    return under


def _panels_area(piece: Piece, part: str, panels: Sequence[Panel]) -> PartArea:
    """All faces of all boards; joints: where they are glued or screwed together; what they rest on covers none."""
    names = [f"{panel.name} {board.role} {k + 1}" for panel in panels for k, board in enumerate(panel.boards)]
    return PartArea(
        part=part,
        marks=_marks(piece, names),
        count=len(panels),
        metal=panels[0].stock.material.is_metal,
        outside=sum(faces(board.size) for panel in panels for board in panel.boards),
        joints=sum(2 * contact(panel.boards) for panel in panels),
        panels=0.0,
        rests=0.0,
    )


def faces(size: Floats) -> float:
    """All six faces of a box (3,) [mm2].

    >>> faces(np.array([2.0, 3.0, 4.0]))
    52.0
    """
    a, b, c = (float(x) for x in size)
    return 2 * (a * b + b * c + c * a)


def contact(boards: Sequence[Board]) -> float:
    """Area over which boards touch one another, each pair once [mm2]."""
    return sum(_touching(one, other) for k, one in enumerate(boards) for other in boards[k + 1 :])


def _touching(one: Board, other: Board) -> float:
    overlap = np.minimum(one.high, other.high) - np.maximum(one.low, other.low)
    axis = int(np.argmin(overlap))
    if abs(float(overlap[axis])) > TOUCH_MM:
        return 0.0
    across = np.delete(overlap, axis)
    return float(np.prod(across)) if (across > 0).all() else 0.0


def _marks(piece: Piece, names: Sequence[str]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(piece.mark_of[name] for name in names if name in piece.mark_of))
