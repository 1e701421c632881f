"""The joints of a piece: those at the ends of members, laps and crossings, and what runs into what without one."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from math import sqrt

import numpy as np

from fitwright.job.model import JointSpec
from fitwright.piece.clash import CLASH_MM, Touch, box_depth, touches
from fitwright.piece.ends import Meeting, override_for
from fitwright.piece.model import Joint, JointKind, Member, Panel
from fitwright.piece.path import Vector
from fitwright.piece.seams import seam_points
from fitwright.piece.solid import Trimmed
from fitwright.piece.trim import nearest_axis
from fitwright.piece.vectors import size
from fitwright.piece.wording import ToldError

OVERLAP_ALLOWED = ("none", "cross", "lap", "bolted")
ALONG = 0.95
SLIMMEST = 0.25
EDGE_MM = 1.0


class Clash(ToldError):
    """Two parts that run into one another without a joint that says so."""


def end_joints(
    members: Sequence[Member], meetings: Sequence[Meeting], overrides: tuple[JointSpec, ...], sleeves: dict[int, int]
) -> list[Joint]:
    """The joints found at the ends of members, and the butts of closed ones; sleeves: by place in `meetings`."""
    joints = []
    for k, meeting in enumerate(meetings):
        first, second = members[meeting.first], members[meeting.second]
        bolted = _bolted(first, second, override_for(overrides, first.part, second.part))
        kind = JointKind.BOLTED if bolted else meeting.kind
        joints.append(Joint(kind, meeting.first, meeting.second, meeting.end, meeting.point, sleeves.get(k), bolted))
    for member in members:
        if member.path.closed:
            own = next((m.index for m in members if m.sleeve_of == member.index), None)
            joints.append(Joint(JointKind.BUTT, member.index, member.index, 0, member.path.start, own))
    return joints


def side_joints(
    members: Sequence[Member], solids: list[Trimmed], known: Sequence[Joint], overrides: tuple[JointSpec, ...]
) -> tuple[list[Joint], list[Clash]]:
    """Laps and crossings of members beside their ends, and members that run into one another with nothing said."""
    joints: list[Joint] = []
    clashes: list[Clash] = []
    by_pair = _by_pair(known)
    sleeves = frozenset(member.index for member in members if member.sleeve_of is not None)
    for touch in touches(solids, sleeves):
        first, second = members[touch.first], members[touch.second]
        said = override_for(overrides, first.part, second.part)
        if touch.depth > CLASH_MM and (said is None or said.kind not in OVERLAP_ALLOWED):
            clashes.append(_clash(first.name, second.name, touch.depth, touch.point, said))
        elif not (
            (said is not None and said.kind == "none") or _joined(touch, members, by_pair) or _edges(touch, solids)
        ):
            places = seam_points(solids[touch.first], solids[touch.second], touch.point)
            joints += [_side_joint(members, replace(touch, point=place), said) for place in places]
    return joints, clashes


def panel_clashes(panels: Sequence[Panel], members: Sequence[Member], solids: list[Trimmed]) -> list[Clash]:
    """Boards that members run into, and panels that run into one another."""
    found = [clash for panel in panels for clash in _through_boards(panel, members, solids)]
    for k, panel in enumerate(panels):
        for other in panels[k + 1 :]:
            if (panel.low < other.high).all() and (other.low < panel.high).all():
                found += _boards_in_boards(panel, other)
    return found


def _left_out(said: JointSpec | None) -> bool:
    return said is not None and said.kind == "none"


def _edges(touch: Touch, solids: list[Trimmed]) -> bool:
    """Whether two ends touch by their edges alone, beside what both are cut to."""
    return all(solids[k].at_end(touch.point, EDGE_MM) for k in (touch.first, touch.second))


def _bolted(first: Member, second: Member, said: JointSpec | None) -> bool:
    return (said is not None and said.kind == "bolted") or "bolted" in (first.fastened, second.fastened)


Pairs = dict[frozenset[int], list[Vector]]


def _by_pair(known: Sequence[Joint]) -> Pairs:
    pairs: Pairs = {}
    for joint in known:
        pairs.setdefault(frozenset((joint.first, joint.second)), []).append(joint.point)
    return pairs


def _joined(touch: Touch, members: Sequence[Member], known: Pairs) -> bool:
    """Whether the touch belongs to a joint already found between the two."""
    first, second = members[touch.first].body, members[touch.second].body
    along = nearest_axis(first, touch.point)[1] @ nearest_axis(second, touch.point)[1]
    # The more acute the joint, the longer its seam.
    reach = 2 * (first.reach + second.reach) / max(sqrt(max(1 - float(along) ** 2, 0.0)), SLIMMEST)
    points = known.get(frozenset((touch.first, touch.second)), [])
    return any(size(point - touch.point) < reach for point in points)


def _side_joint(members: Sequence[Member], touch: Touch, said: JointSpec | None) -> Joint:
    first, second = members[touch.first], members[touch.second]
    bolted = _bolted(first, second, said)
    kind = JointKind.LAP if _laps(first, second, touch.point, said) else JointKind.CROSSING
    return Joint(JointKind.BOLTED if bolted else kind, touch.first, touch.second, None, touch.point, None, bolted)


def _laps(first: Member, second: Member, point: Vector, said: JointSpec | None) -> bool:
    """A lap lies along the other member, or face to face at an end; anything else crosses."""
    if said is not None and said.kind in ("lap", "cross"):
        return said.kind == "lap"
    along = nearest_axis(first.body, point)[1] @ nearest_axis(second.body, point)[1]
    if abs(float(along)) > ALONG:
        return True
    flat = not first.stock.section.is_round and not second.stock.section.is_round
    return flat and any(_near_end(member, point, first.body.reach + second.body.reach) for member in (first, second))


def _near_end(member: Member, point: Vector, reach: float) -> bool:
    ends = (member.body.point_at(end) for end in (0, 1)) if not member.path.closed else ()
    return any(size(end - point) < reach for end in ends)


def _through_boards(panel: Panel, members: Sequence[Member], solids: list[Trimmed]) -> list[Clash]:
    found = []
    for member, solid in zip(members, solids, strict=True):
        if (solid.box[0] > panel.high).any() or (solid.box[1] < panel.low).any():
            continue
        depths = [(box_depth(solid, board.low, board.high), board.role) for board in panel.boards]
        (depth, point), role = max(depths, key=lambda item: item[0][0])
        if depth > CLASH_MM:
            found.append(_clash(member.name, f"{panel.name} ({role})", depth, point))
    return found


def _boards_in_boards(panel: Panel, other: Panel) -> list[Clash]:
    for board in panel.boards:
        for against in other.boards:
            low, high = np.maximum(board.low, against.low), np.minimum(board.high, against.high)
            depth = float((high - low).min())
            if depth > CLASH_MM:
                names = f"{panel.name} ({board.role})", f"{other.name} ({against.role})"
                return [_clash(*names, depth, (low + high) / 2)]
    return []


def _clash(first: str, second: str, depth: float, point: Vector, said: JointSpec | None = None) -> Clash:
    lacking = "without a joint: move one, end it there, or say in joints how they meet"
    if said is not None:
        lacking = (
            f"where no end is trimmed by how: {said.kind}: move one, end it there, or write how: cross, lap or none"
        )
    return Clash(
        "{first} runs {depth} into {second} at {point} " + lacking,
        first=first,
        second=second,
        depth=depth,
        point=point,
    )
