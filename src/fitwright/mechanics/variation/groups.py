"""Which parts are joined first: frames that lie flat on the bench, then frames joined by the rest."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import combinations

import numpy as np

from fitwright.mechanics.model import Floats
from fitwright.mechanics.variation.loose import Loose

Sequence_ = tuple[tuple[int, ...], ...]
FLAT_MM = 3.0
STRAIGHT = 1e-3


def usual_sequence(parts: Loose) -> Sequence_:
    """Groups of members in the order in which each is put together; all groups and the rest are joined at the end.

    Members that lie in one plane and are joined to one another make a flat frame, the one of most members first; a
    bent member that lies in a plane is a flat frame by itself. Each member is in one group at most. Common practice:
    what lies flat on the bench is made first. Any other order may be given to `variation` instead.
    """
    taken: set[int] = set()
    chosen: list[tuple[int, ...]] = []
    for group in sorted(_flat_frames(parts), key=lambda g: (-len(g), g)):
        if not taken & set(group):
            chosen.append(group)
            taken |= set(group)
    return tuple(chosen)


def normal_of(points: Floats) -> Floats | None:
    """Unit normal (3,) of the plane in which points (k, 3) lie within 3 mm; None where they do not, or make a line."""
    around = points - points.mean(axis=0)
    _, sizes, ways = np.linalg.svd(around, full_matrices=False)
    if sizes[1] <= STRAIGHT * sizes[0] or np.abs(around @ ways[2]).max() > FLAT_MM:
        return None
    normal: Floats = np.asarray(ways[2], dtype=np.float64)
    return np.asarray(normal * np.sign(normal[int(np.argmax(np.abs(normal)))]))


def points_of(parts: Loose, members: Sequence[int]) -> Floats:
    """(k, 3) all nodes of some members [mm]."""
    return np.asarray(parts.model.nodes[np.concatenate([parts.nodes_of[k] for k in members])])


def _flat_frames(parts: Loose) -> set[tuple[int, ...]]:
    found: set[tuple[int, ...]] = set()
    bent = {k for k in parts.nodes_of if normal_of(points_of(parts, [k])) is not None}
    for k in bent:
        found.add(_grown(parts, (k,)))
    for meeting in parts.meetings:
        pair = tuple(sorted(set(meeting.members)))
        if len(pair) == 2 and normal_of(points_of(parts, pair)) is not None:
            found.add(_grown(parts, pair))
    return {group for group in found if len(group) > 1 or group[0] in bent}


def _grown(parts: Loose, start: tuple[int, ...]) -> tuple[int, ...]:
    """The group with every member that joins it and lies in its plane."""
    group, edge = set(start), list(start)
    all_points = points_of(parts, start)
    normal = normal_of(all_points)
    assert normal is not None
    middle = all_points.mean(axis=0)
    while edge:
        k = edge.pop()
        for other in {m for number in parts.joined[k] for m in parts.meetings[number].members} - group:
            if np.abs((points_of(parts, [other]) - middle) @ normal).max() <= FLAT_MM:
                group.add(other)
                edge.append(other)
    return tuple(sorted(group))


def joined_in(parts: Loose, group: Sequence[int]) -> tuple[int, ...]:
    """The meetings whose members both belong to a group."""
    inside = set(group)
    return tuple(i for i, meeting in enumerate(parts.meetings) if set(meeting.members) <= inside)


def touching(sequence: Sequence_) -> bool:
    """Whether any two groups share a member."""
    return any(set(a) & set(b) for a, b in combinations(sequence, 2))
