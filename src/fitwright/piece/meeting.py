"""Which parts the ends of the members meet, and which of two gives way."""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from fitwright.job.model import End, JointSpec
from fitwright.piece.body import Body
from fitwright.piece.drawn import support
from fitwright.piece.faces import Box, box_plane, flat_plane, round_plane
from fitwright.piece.model import CutKind, JointKind, Plane
from fitwright.piece.path import Vector
from fitwright.piece.sticks import Stick
from fitwright.piece.trim import axis_plane, nearest_axis, stops

Floats = NDArray[np.float64]
EndKey = tuple[int, int]

TOUCH_MM = 0.05
FLUSH_MM = 0.5
UP = np.array([0.0, 0.0, 1.0])


@dataclass(frozen=True, eq=False)
class Meeting:
    """One joint found: member `first` at its `end` against member `second` (and its end, in a corner or a butt)."""

    kind: JointKind
    first: int
    end: int
    second: int
    second_end: int | None
    point: Vector


@dataclass(eq=False)
class EndPlan:
    """What will be done to one end: the planes and copes that cut it, and whether it meets anything."""

    planes: list[Plane] = field(default_factory=list)
    copes: list[int] = field(default_factory=list)
    kind: CutKind | None = None
    met: bool = False


@dataclass(frozen=True, eq=False)
class Surroundings:
    """What ends may meet besides members: boxes of boards, points of hardware (k, 3), planes of floor and walls."""

    boxes: tuple[Box, ...]
    points: Floats
    planes: tuple[Plane, ...]


def meet(
    sticks: list[Stick], around: Surroundings, overrides: tuple[JointSpec, ...]
) -> tuple[dict[EndKey, EndPlan], list[Meeting]]:
    """Plan every end, and list the joints between members."""
    plans = {(stick.index, end): EndPlan() for stick in sticks if not stick.body.path.closed for end in (0, 1)}
    contacts = {key: _members_met(sticks, key) for key in plans}
    meetings: list[Meeting] = []
    for (index, end), plan in plans.items():
        _drawn_corner(sticks[index], end, plan, meetings)
        _drawn_wish(sticks[index], end, plan)
        _surroundings_met(sticks[index], end, plan, around)
    for pair in _corners(sticks, plans, contacts):
        _settle_corner(sticks, plans, pair, overrides, meetings)
    settled = {(m.first, m.second) for m in meetings} | {(m.second, m.first) for m in meetings}
    for key in plans:
        _settle_tees(sticks, plans, key, contacts[key], settled, overrides, meetings)
    return plans, meetings


def override_for(overrides: tuple[JointSpec, ...], first: Stick, second: Stick) -> JointSpec | None:
    """The maker's word on how two parts meet, in either order."""
    return next((spec for spec in overrides if set(spec.between) == {first.part, second.part}), None)


def section_points(body: Body, end: int) -> Floats:
    """Points (k, 3) of the material at the drawn end [mm]."""
    uv = body.section.fibres()[:, :2]
    origin = np.zeros((1, 2)) if body.section.shape != "angle" else body.section.centroid[None, :]
    return np.asarray(body.point_at(end) + np.vstack([uv, origin]) @ body.frame_at(end))


def overlaps(first: Body, second: Body, slack: float = 1.0) -> bool:
    """Whether the boxes round two untrimmed members come within `slack` of one another [mm]."""
    return bool((first.box[0] - slack < second.box[1]).all() and (second.box[0] - slack < first.box[1]).all())


def _members_met(sticks: list[Stick], key: EndKey) -> list[int]:
    stick = sticks[key[0]]
    points = section_points(stick.body, key[1])
    low, high = points.min(axis=0) - 1, points.max(axis=0) + 1
    met = []
    for other in sticks:
        if other.index == stick.index or (other.body.box[0] > high).any() or (other.body.box[1] < low).any():
            continue
        if float(other.body.distance(points).min()) < TOUCH_MM:
            met.append(other.index)
    return met


def _drawn_corner(stick: Stick, end: int, plan: EndPlan, meetings: list[Meeting]) -> None:
    mitre, partner = stick.mitres[end], stick.partners[end]
    if mitre is None or partner is None:
        return
    plan.planes.append(mitre)
    plan.met = True
    if end == 1:
        meetings.append(Meeting(JointKind.CORNER, stick.index, 1, partner, 0, mitre.point))


def _drawn_wish(stick: Stick, end: int, plan: EndPlan) -> None:
    wish, point, outward = stick.wanted[end], stick.body.point_at(end), stick.body.outward(end)
    if wish is End.AUTO:
        return
    plan.met = True
    if wish is End.LEVEL:
        plan.planes.append(Plane(point, np.sign(outward @ UP) * UP if abs(outward @ UP) > 1e-9 else UP))
    elif wish is End.PLUMB:
        flat = outward - (outward @ UP) * UP
        plan.planes.append(Plane(point, flat / max(float(np.linalg.norm(flat)), 1e-12)))
    elif wish is End.FLATTENED:
        plan.kind = CutKind.FLATTENED


def _surroundings_met(stick: Stick, end: int, plan: EndPlan, around: Surroundings) -> None:
    body, points = stick.body, section_points(stick.body, end)
    for plane in around.planes:
        past = (points - plane.point) @ plane.normal
        if past.max() > -TOUCH_MM and body.outward(end) @ plane.normal > 0.05:
            plan.planes.append(plane)
            plan.met = True
    for low, high in around.boxes:
        if ((points > low - TOUCH_MM) & (points < high + TOUCH_MM)).all(axis=1).any():
            met = box_plane(body, end, (low, high))
            plan.planes += [met] if met else []
            plan.met = True
    if len(around.points):
        gaps = np.linalg.norm(around.points - body.point_at(end), axis=1)
        plan.met = plan.met or bool(gaps.min() < body.reach + 1.0)


def _corners(
    sticks: list[Stick], plans: dict[EndKey, EndPlan], contacts: dict[EndKey, list[int]]
) -> list[tuple[EndKey, EndKey]]:
    """Pairs of ends of different members that lie in one another's bodies, the most upright members first."""
    pairs = []
    for key in plans:
        for other in contacts[key]:
            for end in (0, 1):
                partner = (other, end)
                if key < partner and partner in plans and key[0] in contacts[partner] and _near(sticks, key, partner):
                    pairs.append((key, partner))
    pairs = [pair for pair in pairs if not _one_path(sticks, *pair)]
    return sorted(pairs, key=lambda pair: -max(abs(sticks[k].body.outward(e) @ UP) for k, e in pair))


def _near(sticks: list[Stick], first: EndKey, second: EndKey) -> bool:
    a, b = sticks[first[0]].body, sticks[second[0]].body
    return float(np.linalg.norm(a.point_at(first[1]) - b.point_at(second[1]))) < a.reach + b.reach + TOUCH_MM


def _one_path(sticks: list[Stick], first: EndKey, second: EndKey) -> bool:
    return sticks[first[0]].partners[first[1]] == second[0] and sticks[second[0]].partners[second[1]] == first[0]


def _settle_corner(
    sticks: list[Stick],
    plans: dict[EndKey, EndPlan],
    pair: tuple[EndKey, EndKey],
    overrides: tuple[JointSpec, ...],
    meetings: list[Meeting],
) -> None:
    (i, e), (j, f) = pair
    first, second = sticks[i], sticks[j]
    said = override_for(overrides, first, second)
    if said is not None and said.kind == "none":
        return
    if not _still_meets(sticks, plans, (i, e), j) or not _still_meets(sticks, plans, (j, f), i):
        return
    plans[i, e].met = plans[j, f].met = True
    point = (first.body.point_at(e) + second.body.point_at(f)) / 2
    facing = float(first.body.outward(e) @ second.body.outward(f))
    if facing < -0.9995:
        plans[i, e].planes.append(Plane(point, first.body.outward(e)))
        plans[j, f].planes.append(Plane(point, second.body.outward(f)))
        meetings.append(Meeting(JointKind.BUTT, i, e, j, f, point))
        return
    through = _runs_through(first, e, second, f, said)
    if through is None:
        _mitre(plans, sticks, pair)
    else:
        runner, trimmed = ((i, e), (j, f)) if through else ((j, f), (i, e))
        _carry_through(sticks, plans, runner, trimmed[0])
        _trim(sticks, plans, trimmed, runner[0])
    meetings.append(Meeting(JointKind.CORNER, i, e, j, f, point))


def _runs_through(first: Stick, e: int, second: Stick, f: int, said: JointSpec | None) -> bool | None:
    """True when the first runs through the corner, False when the second does, None for a mitre."""
    if said is not None and said.kind == "mitre":
        return None
    if said is not None and said.kind == "through":
        return first.part == said.between[0]
    flush_first, flush_second = _beyond(first, e, second) <= FLUSH_MM, _beyond(second, f, first) <= FLUSH_MM
    if flush_first != flush_second:
        return flush_first
    if first.stock.label == second.stock.label and _axes_cross(first, e, second, f):
        return None
    upright = abs(first.body.outward(e) @ UP) - abs(second.body.outward(f) @ UP)
    size = first.stock.section.area - second.stock.section.area
    return bool(size > 0 if abs(size) > 1e-6 else upright >= 0)


def _beyond(stick: Stick, end: int, other: Stick) -> float:
    """How far past this end the far side of the other member lies [mm]; zero or less when the end is flush with it."""
    point, outward = stick.body.point_at(end), stick.body.outward(end)
    centre, _ = nearest_axis(other.body, point)
    frame = other.body.frame_at(0)
    return float((centre - point) @ outward) + support(other.stock.section, frame, outward)


def _axes_cross(first: Stick, e: int, second: Stick, f: int) -> bool:
    a, b = first.body, second.body
    across = np.cross(a.outward(e), b.outward(f))
    size = float(np.linalg.norm(across))
    return size < 1e-9 or abs(float((a.point_at(e) - b.point_at(f)) @ across)) / size < FLUSH_MM


def _mitre(plans: dict[EndKey, EndPlan], sticks: list[Stick], pair: tuple[EndKey, EndKey]) -> None:
    (i, e), (j, f) = pair
    a, b = sticks[i].body, sticks[j].body
    normal = a.outward(e) - b.outward(f)
    normal = normal / np.linalg.norm(normal)
    point = _crossing(a.point_at(e), a.outward(e), b.point_at(f), b.outward(f))
    plans[i, e].planes.append(Plane(point, normal))
    plans[j, f].planes.append(Plane(point, -normal))


def _crossing(p: Vector, d: Vector, q: Vector, e: Vector) -> Vector:
    """Middle of the shortest line between two lines."""
    system = np.array([[d @ d, -(d @ e)], [d @ e, -(e @ e)]])
    s, t = np.linalg.solve(system, np.array([(q - p) @ d, (q - p) @ e]))
    middle: Vector = (p + s * d + q + t * e) / 2
    return middle


def _carry_through(sticks: list[Stick], plans: dict[EndKey, EndPlan], key: EndKey, other: int) -> None:
    """Carry an end on until it is flush with the far side of the member that gives way to it."""
    stick = sticks[key[0]]
    beyond = _beyond(stick, key[1], sticks[other])
    if beyond > FLUSH_MM and not plans[key].planes:
        outward = stick.body.outward(key[1])
        plans[key].planes.append(Plane(stick.body.point_at(key[1]) + beyond * outward, outward))


def _trim(sticks: list[Stick], plans: dict[EndKey, EndPlan], key: EndKey, other: int) -> bool:
    """Cut an end to the outside of another member; False when it does not reach that outside."""
    body, against, plan = sticks[key[0]].body, sticks[other].body, plans[key]
    if not against.section.is_round:
        plane = flat_plane(body, key[1], against)
        if plane is None:
            return False
        plan.planes.append(plane)
    elif body.section.bore() is not None:
        plan.copes.append(other)
        plan.planes.append(axis_plane(body, key[1], against))
    else:
        plan.planes.append(round_plane(body, key[1], against))
    plan.met = True
    return True


def _still_meets(sticks: list[Stick], plans: dict[EndKey, EndPlan], key: EndKey, other: int) -> bool:
    """Whether the end, as cut so far, still reaches the other member."""
    plan, stick = plans[key], sticks[key[0]]
    if not plan.planes and not plan.copes:
        return True
    uv = stick.body.section.fibres()[:, :2]
    copes = tuple(sticks[k].body for k in plan.copes)
    at = np.minimum(stops(stick.body, key[1], uv, tuple(plan.planes), copes), 0) - TOUCH_MM
    base = stick.body.point_at(key[1]) + uv @ stick.body.frame_at(key[1])
    points = base + at[:, None] * stick.body.outward(key[1])
    return float(sticks[other].body.distance(points).min()) < -TOUCH_MM


def _settle_tees(
    sticks: list[Stick],
    plans: dict[EndKey, EndPlan],
    key: EndKey,
    contacts: list[int],
    settled: set[tuple[int, int]],
    overrides: tuple[JointSpec, ...],
    meetings: list[Meeting],
) -> None:
    stick = sticks[key[0]]
    for other in contacts:
        said = override_for(overrides, stick, sticks[other])
        if (key[0], other) in settled or (said is not None and said.kind in ("none", "lap", "cross")):
            continue
        if not _still_meets(sticks, plans, key, other):
            continue
        if _gives_way(sticks, plans, key, other) and _trim(sticks, plans, key, other):
            point, _ = nearest_axis(sticks[other].body, stick.body.point_at(key[1]))
            meetings.append(Meeting(JointKind.TEE, key[0], key[1], other, None, (point + stick.body.point_at(key[1])) / 2))


def _gives_way(sticks: list[Stick], plans: dict[EndKey, EndPlan], key: EndKey, other: int) -> bool:
    """An end that runs along the other member's side is no tee: it laps it."""
    _, along = nearest_axis(sticks[other].body, sticks[key[0]].body.point_at(key[1]))
    return abs(float(along @ sticks[key[0]].body.outward(key[1]))) < 0.985
