"""Joints of the piece in the frame: stations tied into nodes, ends released, spring links for bolted laps."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from fitwright.mechanics.framing.branch import second_stops_short
from fitwright.mechanics.framing.line import WorkingLine
from fitwright.mechanics.framing.marks import Groups, Stations, Wanted
from fitwright.mechanics.model import Floats
from fitwright.piece.model import Joint

BOLT_N_PER_MM = 1e6
BOLT_N_MM = 1e9
IN_LINE = 0.1
PASSES = 3


@dataclass(frozen=True, eq=False)
class Tie:
    """A joint found on the working lines: tickets on the first and on the second member.

    hinge: of a bolted end, its ticket, which end it is, and the ticket on the member that it is bolted to.
    """

    joint: int
    first: tuple[int, int]
    second: tuple[int, int]
    at_end: int | None
    bolted: bool
    hinge: tuple[tuple[int, int], int, tuple[int, int]] | None = None


def find_ties(joints: tuple[Joint, ...], wanted: Wanted) -> list[Tie]:
    """Ask for a node at every joint; joints of sleeves are left out, for they only back a weld up."""
    ties = []
    for index, joint in enumerate(joints):
        lines = wanted.lines
        if joint.first in lines and joint.second in lines:
            first, second = _tickets(joint, wanted) if joint.first != joint.second else _butt(joint, wanted)
            ties.append(Tie(index, first, second, joint.end, joint.bolted, _hinge(joint, wanted, first, second)))
    return ties


def _hinge(
    joint: Joint, wanted: Wanted, first: tuple[int, int], second: tuple[int, int]
) -> tuple[tuple[int, int], int, tuple[int, int]] | None:
    """The end that a bolt lets turn: that of the branch, which is the second member where the first runs on past it."""
    if not joint.bolted or joint.end is None:
        return None
    lines = wanted.lines
    end = second_stops_short(joint, lines[joint.first].member, lines[joint.second].member)
    if end is None:
        return first, joint.end, second
    return wanted.at(joint.second, _end_place(lines[joint.second], end)), end, first


def _tickets(joint: Joint, wanted: Wanted) -> tuple[tuple[int, int], tuple[int, int]]:
    line, other = wanted.lines[joint.first], wanted.lines[joint.second]
    if joint.end is not None:
        s, t = _end_place(line, joint.end), other.nearest(joint.point)[0]
    else:
        s, t = _closest(line, other, joint.point)
    return wanted.at(joint.first, s), wanted.at(joint.second, t)


def _closest(line: WorkingLine, other: WorkingLine, point: Floats) -> tuple[float, float]:
    """Where two lines that pass one another near a point come closest, seen from one and the other in turn."""
    s = line.nearest(point)[0]
    for _ in range(PASSES):
        t = other.nearest(line.origin(s))[0]
        s = line.nearest(other.origin(t))[0]
    return s, t


def _end_place(line: WorkingLine, end: int) -> float:
    return line.first if end == 0 else line.last


def _butt(joint: Joint, wanted: Wanted) -> tuple[tuple[int, int], tuple[int, int]]:
    line = wanted.lines[joint.first]
    return wanted.at(joint.first, line.first), wanted.at(joint.first, line.last)


@dataclass(frozen=True, eq=False)
class TiedUp:
    """Stations tied into nodes; the ties that need a link instead: bolted laps, and what would shut an element up."""

    groups: Groups
    laps: list[Tie]
    stiff: list[Tie]


def tie_up(ties: list[Tie], places: Stations) -> TiedUp:
    """Stations tied rigidly, and the ties that need a link between two nodes instead.

    A welded joint is rigid: the first member's end, which stops at the surface of the second, is carried by the
    second's line. A bolted end is tied in place too and released where it begins (see `releases`). A bolted lap is a
    spring link. Where three members meet at one place, two of them may each be tied to both ends of a short piece of
    the third: the last of these ties becomes a stiff link, so that the short piece keeps a node at either end.
    """
    groups = Groups.of(len(places.s))
    after = dict(places.pairs.tolist())
    laps, stiff = [], []
    for tie in ties:
        first, second = places.of[tie.first], places.of[tie.second]
        if tie.bolted and tie.at_end is None:
            laps.append(tie)
        elif _shuts(groups, first, second, after):
            stiff.append(tie)
        else:
            groups.tie(first, second)
    return TiedUp(groups, laps, stiff)


def _shuts(groups: Groups, first: int, second: int, after: Mapping[int, int]) -> bool:
    """Whether a tie would put the two ends of one element on one node; after: the station that follows each."""
    one, other = groups.find(first), groups.find(second)
    if one == other:
        return False
    root = {one, other}
    inside = {i for i in range(len(groups.parent)) if groups.find(i) in root}
    return any(after.get(i) in inside for i in inside)


def releases(
    ties: list[Tie], places: Stations, lines: Mapping[int, WorkingLine], y_axis: Floats
) -> np.ndarray[tuple[int, int], np.dtype[np.bool_]]:
    """(m, 12) releases: a bolted end is a hinge in the plane of the two members, and passes everything else.

    So a rectangle of bolted members racks until something braces it. Two members in one line stay rigid. y_axis: (m, 3)
    local y of the elements; the hinge is about that of local y and z which is nearer to square to the plane.
    That is on the soft side for ends held by several bolts; common practice for bolted ends of light frames.
    """
    released = np.zeros((len(places.pairs), 12), dtype=np.bool_)
    for tie in ties:
        if tie.hinge is not None:
            ticket, end, onto = tie.hinge
            station, other = places.of[ticket], places.of[onto]
            element = int(np.flatnonzero(places.pairs[:, end] == station)[0])
            run = places.points[places.pairs[element, 1]] - places.points[places.pairs[element, 0]]
            normal = np.cross(run, _tangent(lines[int(places.member[other])], float(places.s[other])))
            if float(np.linalg.norm(normal)) > IN_LINE * float(np.linalg.norm(run)):
                about_y = abs(float(normal @ y_axis[element])) * np.linalg.norm(run)
                about_z = abs(float(normal @ np.cross(run, y_axis[element])))
                released[element, 6 * end + (4 if about_y >= about_z else 5)] = True
    return released


def lap_stiffness(axis: Floats) -> Floats:
    """(6, 6) stiffness of one bolt through a lap: stiff in every way but turning about its own axis (3,)."""
    unit = axis / np.linalg.norm(axis)
    k = np.zeros((6, 6))
    k[:3, :3] = BOLT_N_PER_MM * np.eye(3)
    k[3:, 3:] = BOLT_N_MM * (np.eye(3) - np.outer(unit, unit))
    return k


def stiff_link() -> Floats:
    """(6, 6) stiffness of a link that gives way in nothing."""
    return np.diag([BOLT_N_PER_MM] * 3 + [BOLT_N_MM] * 3)


def bolt_axis(tie: Tie, places: Stations, lines: Mapping[int, WorkingLine]) -> Floats:
    """Square to both members where they cross; where they run side by side, from one to the other."""
    first, second = places.of[tie.first], places.of[tie.second]
    along = [_tangent(lines[int(places.member[i])], float(places.s[i])) for i in (first, second)]
    across: Floats = np.cross(along[0], along[1])
    if float(np.linalg.norm(across)) > IN_LINE:
        return across
    gap = places.points[second] - places.points[first]
    gap = gap - (gap @ along[0]) * along[0]
    return gap if float(np.linalg.norm(gap)) > 1e-3 else np.array([0.0, 0.0, 1.0])


def _tangent(line: WorkingLine, s: float) -> Floats:
    ends = line.points(np.array([s - 0.5, s + 0.5]))
    return np.asarray(ends[1] - ends[0])
