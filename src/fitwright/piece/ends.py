"""What is planned for each end of each member: how it is cut, and what it has met so far."""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from fitwright.job.model import End, JointSpec
from fitwright.piece.body import Body
from fitwright.piece.drawn import support
from fitwright.piece.faces import CLOSE_MM, Box, box_plane, flat_planes, round_plane
from fitwright.piece.model import CutKind, JointKind, Plane
from fitwright.piece.path import Vector
from fitwright.piece.sections import closely_of, inner_of, outline_of
from fitwright.piece.sticks import Stick
from fitwright.piece.trim import axis_plane, cope_distance, nearest_axis, plane_stop, stops
from fitwright.piece.vectors import UP, unit

Floats = NDArray[np.float64]
EndKey = tuple[int, int]

TOUCH_MM = 0.05
FLUSH_MM = 0.5
BESIDE_MM = 0.3
FACING = 0.05
STATIONS = 7


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
    """What will be done to one end: the planes and copes that cut it; whether it meets anything, or is mitred."""

    planes: list[Plane] = field(default_factory=list)
    copes: list[int] = field(default_factory=list)
    kind: CutKind | None = None
    met: bool = False
    mitred: bool = False

    @property
    def is_cut(self) -> bool:
        """Whether anything cuts the end yet."""
        return bool(self.planes or self.copes)


@dataclass(frozen=True, eq=False)
class Surroundings:
    """What ends may meet besides members: boxes of boards, points of hardware (k, 3), planes of floor and walls."""

    boxes: tuple[Box, ...]
    points: Floats
    planes: tuple[Plane, ...]


@dataclass(frozen=True, eq=False)
class Layout:
    """All members before trimming, the maker's overrides, and the plans and joints as they come to be."""

    sticks: list[Stick]
    overrides: tuple[JointSpec, ...]
    plans: dict[EndKey, EndPlan]
    contacts: dict[EndKey, list[int]]
    meetings: list[Meeting] = field(default_factory=list)
    joined: set[tuple[EndKey, int]] = field(default_factory=set)
    _tips: dict[tuple[EndKey, int, int], Floats] = field(default_factory=dict)

    def join(self, meeting: Meeting) -> None:
        """Keep a joint found, so that neither of its ends is joined to the other member again."""
        self.meetings.append(meeting)
        self.joined.add(((meeting.first, meeting.end), meeting.second))
        if meeting.second_end is not None:
            self.joined.add(((meeting.second, meeting.second_end), meeting.first))

    def said(self, first: int, second: int) -> JointSpec | None:
        """The maker's word on how two members meet, in either order."""
        return override_for(self.overrides, self.sticks[first].part, self.sticks[second].part)

    def body(self, index: int) -> Body:
        """The untrimmed solid of a member."""
        return self.sticks[index].body

    def presses(self, key: EndKey, other: int) -> bool:
        """Whether an end, as cut so far, still runs into another member as drawn, or through it."""
        return self.body(other).gap(self._last(key, other), 0.0) < -TOUCH_MM

    def overlaps(self, key: EndKey, other: int) -> bool:
        """Whether an end, as cut so far, runs into another member as cut so far."""
        return self._gap(self._last(key, other), other) < -TOUCH_MM

    def touches(self, key: EndKey, other: int) -> bool:
        """Whether an end, as cut so far, touches another member as cut so far."""
        return self._gap(self._tip(key), other) < TOUCH_MM

    def _gap(self, points: Floats, other: int) -> float:
        """Least distance of points (k, 3) from a member as cut so far [mm]; inf when none comes near it."""
        body = self.body(other)
        if not body.near(points, TOUCH_MM):
            return np.inf
        gap = body.distance(points)
        close = gap < TOUCH_MM  # a cut only takes away
        points, gap = points[close], gap[close]
        for end in (0, 1) if len(points) else ():
            plan = self.plans.get((other, end), EndPlan())
            if plan.is_cut:
                away = body.point_at(end) - points
                near = (away**2).sum(axis=1) < (body.path.length / 2) ** 2
                cuts = [(points - plane.point) @ plane.normal for plane in plan.planes]
                cuts += [-cope_distance(body, end, self.body(k), points) for k in plan.copes]
                gap = np.where(near, np.maximum(gap, np.max(cuts, axis=0)), gap)
        return float(gap.min(initial=np.inf))

    def _last(self, key: EndKey, other: int) -> Floats:
        """Points (k, 3) of the last of a member before its cut, as far back as the other is wide."""
        back = np.linspace(0.0, -2 * self.body(other).reach, STATIONS)[:, None, None] * self.body(key[0]).outward(
            key[1]
        )
        return np.asarray((self._tip(key) + back).reshape(-1, 3))

    def _tip(self, key: EndKey) -> Floats:
        """Points (k, 3) of the material where a member ends as cut so far, worked out anew when it is cut again."""
        state = (key, len(self.plans[key].planes), len(self.plans[key].copes))
        if state not in self._tips:
            self._tips[state] = self._tip_now(key)
        return self._tips[state]

    def _tip_now(self, key: EndKey) -> Floats:
        body, plan = self.body(key[0]), self.plans[key]
        points = section_points(body, key[1])
        if not plan.is_cut:
            return points
        at = stops(body, key[1], inner_of(body.section), tuple(plan.planes), tuple(self.body(k) for k in plan.copes))
        return np.asarray(points + np.minimum(at, 0.0)[:, None] * body.outward(key[1]))


def override_for(overrides: tuple[JointSpec, ...], first: str, second: str) -> JointSpec | None:
    """The maker's word on how two parts (by their names in the job) meet, in either order."""
    return next((spec for spec in overrides if set(spec.between) == {first, second}), None)


def section_points(body: Body, end: int) -> Floats:
    """Points (k, 3) of the material at the drawn end, and its middle [mm]."""
    return np.asarray(body.point_at(end) + inner_of(body.section) @ body.frame_at(end))


def contacts(sticks: list[Stick], keys: list[EndKey]) -> dict[EndKey, list[int]]:
    """For each end, the members that some of its material touches or lies in."""
    lows = np.array([stick.body.box[0] for stick in sticks]).reshape(-1, 3)
    highs = np.array([stick.body.box[1] for stick in sticks]).reshape(-1, 3)
    found: dict[EndKey, list[int]] = {}
    for key in keys:
        points = section_points(sticks[key[0]].body, key[1])
        near = ((lows < points.max(axis=0) + 1) & (highs > points.min(axis=0) - 1)).all(axis=1)
        near[key[0]] = False
        others = [int(k) for k in np.flatnonzero(near)]
        found[key] = [k for k in others if sticks[k].body.gap(points, TOUCH_MM) < TOUCH_MM]
    return found


def plan_wish(stick: Stick, end: int, plan: EndPlan) -> None:
    """Put the maker's wish for an end into its plan."""
    wish, point, outward = stick.wanted[end], stick.body.point_at(end), stick.body.outward(end)
    plan.met = plan.met or wish is not End.AUTO
    if wish is End.LEVEL:
        plan.planes.append(Plane(point, np.sign(outward @ UP) * UP))
    elif wish is End.PLUMB:
        plan.planes.append(Plane(point, unit(outward - (outward @ UP) * UP)))
    elif wish is End.FLATTENED:
        plan.kind = CutKind.FLATTENED


def impossible_wish(stick: Stick, end: int) -> str | None:
    """The words for a wish that cannot be cut: level on a member that runs level, plumb on one that stands."""
    wish, rise = stick.wanted[end], abs(float(stick.body.outward(end) @ UP))
    if wish is End.LEVEL and rise < FACING:
        return "runs level and cannot be cut level there: write square or plumb"
    if wish is End.PLUMB and rise > 1 - FACING**2 / 2:
        return "stands upright and cannot be cut plumb there: write square or level"
    return None


def plan_surroundings(stick: Stick, end: int, plan: EndPlan, around: Surroundings) -> None:
    """Cut an end to the floor, the walls and the boards that it meets."""
    body, points = stick.body, section_points(stick.body, end)
    for plane in around.planes:
        past = (points - plane.point) @ plane.normal
        if past.max() > -TOUCH_MM and body.outward(end) @ plane.normal > FACING:
            _cut_flat(stick, end, plan, plane)
    low, high = points.min(axis=0) - TOUCH_MM, points.max(axis=0) + TOUCH_MM
    for box in around.boxes:
        if (box[0] > high).any() or (box[1] < low).any():
            continue
        if ((points > box[0] - TOUCH_MM) & (points < box[1] + TOUCH_MM)).all(axis=1).any():
            met = box_plane(body, end, box)
            if met is not None:
                _cut_flat(stick, end, plan, met)
            plan.met = True
    if len(around.points):
        gaps = np.linalg.norm(around.points - body.point_at(end), axis=1)
        plan.met = plan.met or bool(gaps.min() < body.reach + 1.0)


def trim_to(layout: Layout, key: EndKey, other: int) -> bool:
    """Cut an end to the outside of another member; False when it does not reach that outside."""
    stick, against, plan = layout.sticks[key[0]], layout.body(other), layout.plans[key]
    body, end = stick.body, key[1]
    plain = plan.kind is CutKind.FLATTENED or stick.wanted[end] is End.SQUARE or body.section.bore() is None
    if against.section.is_round and not plain:
        plan.copes.append(other)
        plan.planes.append(axis_plane(body, end, against))
    else:
        planes = (round_plane(body, end, against),) if against.section.is_round else flat_planes(body, end, against)
        if not planes:
            return False
        for plane in planes:
            _cut_flat(stick, end, plan, plane)
    plan.met = True
    return True


def _cut_flat(stick: Stick, end: int, plan: EndPlan, plane: Plane) -> None:
    """Cut an end to a plane; where the maker wants it square, square to itself where it first comes to that plane."""
    plan.met = True
    if stick.wanted[end] is End.SQUARE:
        outward = stick.body.outward(end)
        at = float(plane_stop(stick.body, end, outline_of(stick.body.section, 72), plane).min())
        plane = Plane(stick.body.point_at(end) + at * outward, outward)
    plan.planes.append(plane)


def beyond(stick: Stick, end: int, other: Stick) -> float:
    """How far past this end the far side of the other member lies [mm]; zero or less when the end is flush with it."""
    point, outward = stick.body.point_at(end), stick.body.outward(end)
    centre, _ = nearest_axis(other.body, point)
    frame = other.body.frame_at(0)
    return float((centre - point) @ outward) + support(other.stock.section, frame, outward)


def held_beside(stick: Stick, end: int, sticks: list[Stick], around: Surroundings) -> bool:
    """Whether the last of a member, by its side, lies on another member or a board."""
    body = stick.body
    ring = closely_of(body.section, CLOSE_MM) @ body.frame_at(end) + body.point_at(end)
    back = np.linspace(0.0, -2 * body.reach, 9)[:, None, None] * body.outward(end)
    points = (ring + back).reshape(-1, 3)
    low, high = points.min(axis=0) - BESIDE_MM, points.max(axis=0) + BESIDE_MM

    def near(box: Box) -> bool:
        return bool((box[0] < high).all() and (box[1] > low).all())

    bodies = [other.body for other in sticks if other.index != stick.index and near(other.body.box)]
    if any(float(np.abs(other.distance(points)).min()) < BESIDE_MM for other in bodies):
        return True
    boxes = [box for box in around.boxes if near(box)]
    return any(bool(((points > a - BESIDE_MM) & (points < b + BESIDE_MM)).all(axis=1).any()) for a, b in boxes)
