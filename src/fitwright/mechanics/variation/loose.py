"""The members of a piece before they are joined: each meshed by itself, with the places where they will meet."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np

from fitwright.mechanics.framing import Framed, JointPlace
from fitwright.mechanics.model import Floats, FrameModel, Ints
from fitwright.mechanics.variation.seats import Seat, directions, mitred, seat_of
from fitwright.piece.model import Joint


@dataclass(frozen=True, eq=False)
class Meeting:
    """A joint yet to be made: nodes of its first and second member, directions (3, 3) (along, run, across), its seat.

    members: the two it joins; end: which end of the first meets; half: half the size of the first member's section.
    """

    joint: int
    nodes: tuple[int, int]
    members: tuple[int, int]
    end: int | None
    axes: Floats
    seat: Seat
    half: float


@dataclass(frozen=True, eq=False)
class Standing:
    """Where the piece touches the floor (or the wall that holds it): name, node, the point (3,) [mm], its kind."""

    name: str
    node: int
    point: Floats
    kind: str


@dataclass(frozen=True, eq=False)
class Loose:
    """Members not yet joined: no two share a node.

    model: their elements, without links; nodes_of: nodes of each member in order along it; elements_of likewise.
    s: (n,) place of each node along its member [mm]. member_of: (n,) the member of each node.
    """

    model: FrameModel
    nodes_of: Mapping[int, Ints]
    elements_of: Mapping[int, Ints]
    s: Floats
    member_of: Ints
    meetings: tuple[Meeting, ...]
    feet: tuple[Standing, ...]
    walls: tuple[Standing, ...] = ()

    @cached_property
    def joined(self) -> Mapping[int, tuple[int, ...]]:
        """The meetings of each member."""
        found: dict[int, list[int]] = {k: [] for k in self.nodes_of}
        for number, meeting in enumerate(self.meetings):
            for k in set(meeting.members):
                found[k].append(number)
        return {k: tuple(v) for k, v in found.items()}

    def nearest(self, point: Floats, member: int | None = None) -> int:
        """The node nearest to a point (3,), of one member if it is given."""
        pick = np.arange(len(self.s)) if member is None else self.nodes_of[member]
        away = self.model.nodes[pick] - point
        return int(pick[int(np.argmin(np.einsum("ij,ij->i", away, away)))])


def loose(framed: Framed) -> Loose:
    """The members of a framed piece, taken apart at their joints."""
    keys = np.column_stack([np.repeat(framed.member_of, 2), np.round(framed.stations.ravel(), 6)])
    unique, first, inverse = np.unique(keys, axis=0, return_index=True, return_inverse=True)
    elements = inverse.reshape(-1, 2)
    members = unique[:, 0].astype(np.intp)
    nodes = framed.model.ends.reshape(-1, 3)[first]
    parts = Loose(
        model=_bare(framed.model, nodes, elements, [framed.piece.members[int(k)].name for k in members]),
        nodes_of={k: np.flatnonzero(members == k) for k in framed.lines},
        elements_of=framed.elements_of,
        s=unique[:, 1],
        member_of=members,
        meetings=(),
        feet=(),
    )
    meetings = tuple(_meeting(framed, parts, place) for place in framed.joints)
    feet = tuple(
        Standing(foot.name, _foot_node(framed, parts, foot.node), _foot_point(framed, foot.node), foot.kind)
        for foot in framed.feet
    )
    walls = tuple(
        Standing(framed.model.node_labels[n], parts.nearest(framed.model.nodes[n]), framed.model.nodes[n], "wall")
        for n in framed.held
    )
    return replace(parts, meetings=meetings, feet=feet, walls=walls)


def _bare(model: FrameModel, nodes: Floats, elements: Ints, names: list[str]) -> FrameModel:
    return replace(
        model,
        nodes=nodes,
        elements=elements.astype(np.intp),
        offsets=np.zeros_like(model.offsets),
        releases=np.zeros_like(model.releases),
        links=np.zeros((0, 2), dtype=np.intp),
        link_stiffness=np.zeros((0, 6, 6)),
        rigid=np.zeros((0, 2), dtype=np.intp),
        node_labels=tuple(names),
    )


def _meeting(framed: Framed, parts: Loose, place: JointPlace) -> Meeting:
    joint = framed.piece.joints[place.joint]
    element, column = place.ends[0]
    first = int(parts.model.elements[element, column])
    second = _second_node(framed, parts, place, joint)
    member = framed.piece.members[joint.first]
    axes = _axes(framed, joint, parts.model.nodes[first], parts.model.nodes[second])
    return Meeting(
        place.joint,
        (first, second),
        (joint.first, joint.second),
        joint.end,
        axes,
        seat_of(joint, framed.piece.members),
        member.body.reach,
    )


def _second_node(framed: Framed, parts: Loose, place: JointPlace, joint: Joint) -> int:
    """The node of the second member at the joint; the far end of the same member where it closes on itself."""
    if joint.first == joint.second:
        return int(parts.nodes_of[joint.second][-1])
    elements = parts.elements_of[joint.second]
    at = framed.model.elements[elements] == place.node
    found = parts.model.elements[elements][at]
    if not len(found):
        return parts.nearest(joint.point, joint.second)
    away = np.linalg.norm(parts.model.nodes[found] - joint.point, axis=1)
    return int(found[int(np.argmin(away))])


def _axes(framed: Framed, joint: Joint, here: Floats, there: Floats) -> Floats:
    members = framed.piece.members
    first, second = members[joint.first], members[joint.second]
    run = _tangent(framed, joint.second, there)
    if joint.end is None:
        gap = there - here
        across = np.cross(_tangent(framed, joint.first, here), run)
        along = gap if float(np.linalg.norm(gap)) > 1.0 else across
        return directions(along if float(np.linalg.norm(along)) > 1e-9 else np.array([0.0, 0.0, 1.0]), run)
    out = first.body.outward(joint.end)
    if mitred(joint, members) and joint.first != joint.second:
        other = run if float(run @ (there - second.centre)) > 0 else -run
        if float(np.linalg.norm(out - other)) > 1e-6:
            return directions(out - other, out + other)
    return directions(out, run)


def _tangent(framed: Framed, member: int, point: Floats) -> Floats:
    """(3,) the way a member runs near a point."""
    elements = framed.elements_of[member]
    near = int(elements[int(np.argmin(np.linalg.norm(framed.middles[elements] - point, axis=1)))])
    ends = framed.model.ends[near]
    unit: Floats = (ends[1] - ends[0]) / np.linalg.norm(ends[1] - ends[0])
    return unit


def _foot_node(framed: Framed, parts: Loose, node: int) -> int:
    """The loose node on which a foot sits; of a crowded foot's node, that of its carrier."""
    carrier = dict(framed.model.rigid.tolist())
    at = parts.model.elements[framed.model.elements == carrier.get(node, node)]
    if not len(at):
        return parts.nearest(framed.model.nodes[node])
    away = np.linalg.norm(parts.model.nodes[at] - framed.model.nodes[node], axis=1)
    return int(at[int(np.argmin(away))])


def _foot_point(framed: Framed, node: int) -> Floats:
    return np.asarray(framed.model.nodes[node])
