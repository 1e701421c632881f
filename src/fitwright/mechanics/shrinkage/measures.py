"""What is looked at on a welded group: named points, and distances between them that a maker would measure."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import combinations

import numpy as np

from fitwright.mechanics.model import Floats
from fitwright.mechanics.shrinkage.welded import Group

AXES = ("width", "depth", "height")
LEVEL_MM = 5.0
SHORT_MM = 150.0


@dataclass(frozen=True, eq=False)
class Point:
    """A named point of a group: a node of its frame. open_end: nothing is welded there."""

    name: str
    node: int
    member: int
    at: Floats
    open_end: bool = False


@dataclass(frozen=True, eq=False)
class Measure:
    """One thing a maker would measure, as weights (p, 3) on the movements of the points.

    kind: "open ends", "apart", "overall", "rock" or "bow". nominal: the length concerned [mm].
    more, less: what it is called when it grows and when it shrinks.
    """

    kind: str
    subject: str
    weights: Floats
    nominal: float
    more: str
    less: str


def points_of(group: Group, welded_nodes: Mapping[int, str]) -> tuple[Point, ...]:
    """Ends of members that nothing is welded to, joints, and the middles of members, each node once.

    welded_nodes: what each joint is called.
    """
    found: dict[int, Point] = {}
    members = group.framed.piece.members
    for k in group.members:
        chain = chain_of(group, k)
        if not members[k].path.closed:
            for end, node in ((0, chain[0]), (1, chain[-1])):
                if node not in welded_nodes:
                    name = f"open end {end + 1} of {members[k].name}"
                    found[node] = Point(name, node, k, group.model.nodes[node], True)
    for node, name in sorted(welded_nodes.items()):
        found.setdefault(node, Point(name, node, -1, group.model.nodes[node]))
    for k in group.members:
        chain = chain_of(group, k)
        if len(chain) > 2:
            middle = chain[len(chain) // 2]
            found.setdefault(middle, Point(f"middle of {members[k].name}", middle, k, group.model.nodes[middle]))
    return tuple(found.values())


def chain_of(group: Group, member: int) -> list[int]:
    """The nodes along a member in order."""
    elements = np.flatnonzero(group.framed.member_of[group.kept] == member)
    pairs = group.model.elements[elements]
    return [*pairs[:, 0].tolist(), int(pairs[-1, 1])]


def measures_of(group: Group, points: Sequence[Point]) -> tuple[Measure, ...]:
    """Distances between open ends, overall sizes, the rock of four open ends, and the bow of straight members."""
    open_ends = [i for i, point in enumerate(points) if point.open_end]
    return (
        *_open_pairs(group, points, open_ends),
        *_overall(points),
        *_rock(points, open_ends),
        *_bows(group, points),
    )


def _named(group: Group, member: int) -> str:
    piece = group.framed.piece
    name = piece.members[member].name
    mark = piece.mark_of.get(name, "")
    return f"{mark} ({name})" if mark else name


def apart(points: Sequence[Point], a: int, b: int) -> tuple[Floats, float]:
    """Weights (p, 3) of the distance between two points, and the distance [mm]."""
    weights = np.zeros((len(points), 3))
    gap = points[b].at - points[a].at
    distance = float(np.linalg.norm(gap))
    weights[b], weights[a] = gap / distance, -gap / distance
    return weights, distance


def _open_pairs(group: Group, points: Sequence[Point], open_ends: Sequence[int]) -> list[Measure]:
    found = []
    for a, b in combinations(open_ends, 2):
        weights, distance = apart(points, a, b)
        first, second = points[a].member, points[b].member
        if first == second:
            subject = f"the open ends of {_named(group, first)}"
            found.append(Measure("open ends", subject, weights, distance, "spread", "pull in"))
        elif _along_axis(points[b].at - points[a].at):
            subject = f"the open ends of {_named(group, first)} and {_named(group, second)}"
            found.append(Measure("apart", subject, weights, distance, "move apart", "come together"))
    return found


def _along_axis(vector: Floats) -> bool:
    return float(np.abs(vector).max()) > 0.995 * float(np.linalg.norm(vector))


def _overall(points: Sequence[Point]) -> list[Measure]:
    """Over each axis the pairs of outermost points that lie straight across from one another: all but open ends,
    which are looked at apart."""
    found = []
    at = np.array([point.at for point in points])
    for axis, name in enumerate(AXES):
        low = np.flatnonzero(at[:, axis] < at[:, axis].min() + LEVEL_MM)
        high = np.flatnonzero(at[:, axis] > at[:, axis].max() - LEVEL_MM)
        for a in low.tolist():
            partners = [
                b
                for b in high.tolist()
                if b != a and _along_axis(at[b] - at[a]) and not (points[a].open_end and points[b].open_end)
            ]
            if partners and float(at[high[0], axis] - at[a, axis]) > SHORT_MM:
                gaps = np.linalg.norm(at[partners] - at[a], axis=1)
                b = partners[int(np.argmin(gaps))]
                weights, distance = apart(points, a, b)
                subject = f"the {name} from {points[a].name} to {points[b].name}"
                found.append(Measure("overall", subject, weights, distance, "grows", "shrinks"))
    return found


def _rock(points: Sequence[Point], open_ends: Sequence[int]) -> list[Measure]:
    """Four open ends on one level: how far one is off when the piece stands on the other three."""
    if len(open_ends) != 4:
        return []
    at = np.array([points[i].at for i in open_ends])
    if np.ptp(at[:, 2]) > LEVEL_MM:
        return []
    centre = at.mean(axis=0)
    order = np.argsort(np.arctan2(at[:, 1] - centre[1], at[:, 0] - centre[0]))
    weights = np.zeros((len(points), 3))
    for sign, k in zip((1.0, -1.0, 1.0, -1.0), order.tolist(), strict=True):
        weights[open_ends[k], 2] = sign
    nominal = float(np.linalg.norm(at[order[2]] - at[order[0]]))
    return [Measure("rock", "the fourth open end", weights, nominal, "stands off the floor", "stands off the floor")]


def _bows(group: Group, points: Sequence[Point]) -> list[Measure]:
    """How far the middle of a straight member leaves the line between its ends, in two directions across it."""
    of_node = {point.node: i for i, point in enumerate(points)}
    found = []
    for k in group.members:
        member = group.framed.piece.members[k]
        chain = chain_of(group, k)
        ends, middle = (chain[0], chain[-1]), chain[len(chain) // 2]
        if member.path.bent or member.path.closed or not {*ends, middle} <= of_node.keys():
            continue
        line = group.model.nodes[ends[1]] - group.model.nodes[ends[0]]
        length = float(np.linalg.norm(line))
        if length < 2 * SHORT_MM:
            continue
        part = float((group.model.nodes[middle] - group.model.nodes[ends[0]]) @ line) / length**2
        for across in _across(line / length):
            weights = np.zeros((len(points), 3))
            weights[of_node[middle]] = across
            weights[of_node[ends[0]]] -= (1 - part) * across
            weights[of_node[ends[1]]] -= part * across
            way, back = _way(across), _way(-across)
            subject = f"{_named(group, k)}"
            found.append(Measure("bow", subject, weights, length, f"bows {way}", f"bows {back}"))
    return found


def _across(direction: Floats) -> tuple[Floats, Floats]:
    helper = np.eye(3)[int(np.argmin(np.abs(direction)))]
    one = np.cross(direction, helper)
    one = one / np.linalg.norm(one)
    return one, np.cross(direction, one)


def _way(vector: Floats) -> str:
    """The nearest of left, right, front, back, up, down."""
    axis = int(np.argmax(np.abs(vector)))
    ways = (("to the right", "to the left"), ("to the back", "to the front"), ("up", "down"))
    return ways[axis][int(vector[axis] < 0)]


def translations(group: Group, points: Sequence[Point]) -> Floats:
    """(3p, 6n) rows that read the movements of the points off displacements."""
    rows = np.zeros((len(points), 3, group.model.node_count, 6))
    for i, point in enumerate(points):
        rows[i, :, point.node, :3] = np.eye(3)
    return rows.reshape(3 * len(points), -1)


def without_rigid(points: Sequence[Point]) -> Floats:
    """(3p, 3p) that takes the best-fitting rigid motion out of the movements of the points.

    Source: least squares over the six small rigid motions.
    """
    at = np.array([point.at for point in points])
    arms = at - at.mean(axis=0)
    rigid = np.zeros((len(points), 3, 6))
    rigid[:, :, :3] = np.eye(3)
    for axis in range(3):
        rigid[:, :, 3 + axis] = np.cross(np.eye(3)[axis], arms)
    flat = rigid.reshape(-1, 6)
    return np.asarray(np.eye(len(flat)) - flat @ np.linalg.pinv(flat))
