"""Which parts are put together first: frames that lie flat, then the frames joined by the rest."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from difflib import get_close_matches

import numpy as np
from numpy.typing import NDArray

from fitwright.making.bench.errors import BenchError
from fitwright.making.bench.model import GroupWish
from fitwright.piece import Member, Piece

Floats = NDArray[np.float64]

FLAT_MM = 3.0  # as far as a tube can be pressed flat by hand while it is tacked; common practice
STRAIGHT = 1e-3
SIDES = ("top", "bottom", "front", "back", "left", "right")


@dataclass(frozen=True)
class Group:
    """Members put together in one set-up; of: places in the list of the groups that it takes as they are."""

    name: str
    members: tuple[int, ...]
    of: tuple[int, ...] = ()
    wished_up: str = ""
    flip: str = ""

    @property
    def whole(self) -> bool:
        """Whether it joins earlier groups."""
        return bool(self.of)


def groups_of(piece: Piece, wishes: Sequence[GroupWish] | None = None) -> tuple[Group, ...]:
    """The set-ups of a piece in their order: those asked for, else flat frames and then the whole.

    Members that lie in one plane and are joined to one another make a flat frame, the one of most members first; a
    bent member that lies in a plane is checked, and trimmed, on the bench by itself. What is welded together in the
    end makes the last set-up; what is bolted on is no matter of the bench. Common practice.

    Raises BenchError for a wish that names a part that is not there, or a member that is not joined to the rest.
    """
    net = _net(piece)
    if wishes is not None:
        return _wished(piece, wishes)
    flat = _flat_frames(piece, net)
    found: list[Group] = [Group(_frame_name(piece, members), members) for members in flat]
    for whole in _connected(net):
        parts = tuple(k for k, group in enumerate(found) if set(group.members) <= set(whole))
        if len(whole) > 1 and not any(set(found[k].members) == set(whole) for k in parts):
            found.append(Group(_whole_name(piece, whole), whole, parts))
    return tuple(_named_apart(found))


def _net(piece: Piece) -> dict[int, set[int]]:
    """Who is welded to whom; sleeves go with their tubes and count for none."""
    net: dict[int, set[int]] = {m.index: set() for m in piece.members if m.sleeve_of is None}
    for joint in piece.joints:
        if not joint.bolted and joint.first != joint.second and joint.first in net and joint.second in net:
            net[joint.first].add(joint.second)
            net[joint.second].add(joint.first)
    return net


def _connected(net: dict[int, set[int]]) -> list[tuple[int, ...]]:
    left, found = set(net), []
    while left:
        group, edge = set(), [min(left)]
        while edge:
            k = edge.pop()
            if k not in group:
                group.add(k)
                edge += net[k] - group
        left -= group
        found.append(tuple(sorted(group)))
    return found


def plane_of(points: Floats) -> Floats | None:
    """Unit normal (3,) of the plane in which points (k, 3) lie within 3 mm; None where they do not, or make a line."""
    around = points - points.mean(axis=0)
    _, sizes, ways = np.linalg.svd(around, full_matrices=False)
    if len(sizes) < 2 or sizes[1] <= STRAIGHT * sizes[0]:
        return None
    normal = np.asarray(ways[2]) if len(ways) > 2 else np.cross(ways[0], ways[1])
    if np.abs(around @ normal).max() > FLAT_MM:
        return None
    return np.asarray(normal * np.sign(normal[int(np.argmax(np.abs(normal)))]))


def points_of(piece: Piece, members: Iterable[int]) -> Floats:
    """Vertices (k, 3) of the paths of some members [mm]."""
    return np.vstack([piece.members[k].path.vertices for k in members])


def _flat_frames(piece: Piece, net: dict[int, set[int]]) -> list[tuple[int, ...]]:
    """Frames that share no member: a closed one first, then the largest; equal ones as their members come."""
    left = net
    chosen: list[tuple[int, ...]] = []
    while True:
        groups = _candidates(piece, left)
        if not groups:
            return sorted(chosen)
        best = min(groups, key=lambda g: (-_closed_of_one_part(piece, net, g), -len(g), g))
        chosen.append(best)
        left = {k: others - set(best) for k, others in left.items() if k not in best}


def _candidates(piece: Piece, net: dict[int, set[int]]) -> set[tuple[int, ...]]:
    bent = {k for k in net if _is_bent(piece.members[k]) and plane_of(points_of(piece, [k])) is not None}
    pairs = {(k, other) for k, others in net.items() for other in others if k < other}
    flat = {pair for pair in pairs if plane_of(points_of(piece, pair)) is not None}
    return {_grown(piece, net, (k,)) for k in bent} | {_grown(piece, net, pair) for pair in flat}


def _is_bent(member: Member) -> bool:
    return member.path.bent or member.path.closed


def _closed_of_one_part(piece: Piece, net: dict[int, set[int]], group: tuple[int, ...]) -> int:
    """A frame drawn as one closed part, such as a mitred base, is one before anything that shares its legs."""

    def in_ring(k: int) -> bool:
        return sum(piece.members[other].part == piece.members[k].part for other in net[k] & set(group)) >= 2

    return int(sum(in_ring(k) for k in group) > 2)


def _grown(piece: Piece, net: dict[int, set[int]], start: tuple[int, ...]) -> tuple[int, ...]:
    """The group with every member that is joined to it and lies in its plane."""
    points = points_of(piece, start)
    normal = plane_of(points)
    assert normal is not None
    group, edge, middle = set(start), list(start), points.mean(axis=0)
    while edge:
        for other in net[edge.pop()] - group:
            if np.abs((points_of(piece, [other]) - middle) @ normal).max() <= FLAT_MM:
                group.add(other)
                edge.append(other)
    return tuple(sorted(group))


def _frame_name(piece: Piece, members: tuple[int, ...]) -> str:
    if len(members) == 1:
        return piece.members[members[0]].name
    parts = list(dict.fromkeys(piece.members[k].part for k in members))
    return " with ".join([parts[0], " and ".join(parts[1:])] if parts[1:] else parts)


def _whole_name(piece: Piece, members: tuple[int, ...]) -> str:
    everything = sum(m.sleeve_of is None for m in piece.members) == len(members)
    return "the whole" if everything else f"the whole of {piece.members[members[0]].part}"


def _named_apart(groups: list[Group]) -> list[Group]:
    """Groups of one name get numbers."""
    names = [group.name for group in groups]
    seen: dict[str, int] = {}
    told = []
    for group in groups:
        seen[group.name] = seen.get(group.name, 0) + 1
        name = f"{group.name}, {seen[group.name]}" if names.count(group.name) > 1 else group.name
        told.append(replace(group, name=name))
    return told


def _wished(piece: Piece, wishes: Sequence[GroupWish]) -> tuple[Group, ...]:
    found: list[Group] = []
    free = {name: k for k, name in enumerate(wish.name for wish in wishes)}
    if len(free) < len(wishes):
        raise BenchError("two subassemblies have the same name: give each its own")
    for wish in wishes:
        if not wish.parts:
            raise BenchError(f"subassembly {wish.name} names no part: list parts, members or earlier subassemblies")
        if wish.up and wish.up not in SIDES:
            raise BenchError(f"{wish.name}: up is {wish.up!r}: use one of {', '.join(SIDES)}")
        members: set[int] = set()
        of: list[int] = []
        for part in wish.parts:
            earlier = next((k for k, group in enumerate(found) if group.name == part), None)
            members |= set(found[earlier].members) if earlier is not None else _members_named(piece, wish, part)
            of += [earlier] if earlier is not None else []
        of += [k for k, group in enumerate(found) if k not in of and set(group.members) <= members]
        inner = {deep for k in of for deep in found[k].of}
        found.append(
            Group(wish.name, tuple(sorted(members)), tuple(k for k in of if k not in inner), wish.up, wish.flip)
        )
    return tuple(found)


def joints_left_out(piece: Piece, groups: Sequence[Group]) -> tuple[str, ...]:
    """Welded joints that no set-up holds, each as the names of its two members."""
    net = _net(piece)
    pairs = {(k, other) for k, others in net.items() for other in others if k < other}
    loose = [pair for pair in sorted(pairs) if not any(set(pair) <= set(group.members) for group in groups)]
    return tuple(f"{piece.members[a].name} on {piece.members[b].name}" for a, b in loose)


def _members_named(piece: Piece, wish: GroupWish, part: str) -> set[int]:
    known = {m.name for m in piece.members} | {m.part for m in piece.members}
    members = {
        m.index
        for m in piece.members
        if m.sleeve_of is None and (part in (m.name, m.part) or m.name.startswith(f"{part} leg "))
    }
    if members:
        return members
    near = get_close_matches(part, sorted(known), 1)
    hint = f", did you mean {near[0]!r}?" if near else ""
    raise BenchError(f"subassembly {wish.name}: no part or member is called {part!r}{hint}")
