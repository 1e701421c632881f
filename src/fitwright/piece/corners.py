"""Corners and butts: where ends of members meet one another, and which of them runs through."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from fitwright.job.model import End
from fitwright.piece.ends import FLUSH_MM, TOUCH_MM, EndKey, Layout, Meeting, beyond, trim_to
from fitwright.piece.model import JointKind, Plane
from fitwright.piece.path import Vector
from fitwright.piece.vectors import UP, cross, size, unit

IN_LINE = -0.9995
LEFT_ALONE = ("none", "lap", "cross")
Pair = tuple[EndKey, EndKey]


@dataclass(frozen=True)
class Rule:
    """How one corner is to be made: in line, mitred, or one end running through.

    rank: which corners are settled before others, the surest first; through: the end that runs on, None for a mitre
    or a butt in line.
    """

    rank: tuple[float, ...]
    in_line: bool = False
    through: EndKey | None = None


def settle_corners(layout: Layout) -> None:
    """Plan every corner and butt between ends.

    What the maker says or draws comes first: joints, then an end drawn flush with the far side of the other. A larger
    member then runs through, members of one stock are mitred, and where three meet in a corner the two that lie most
    level are mitred and the third comes up against them. Timber drawn member by member is not mitred: the upright
    runs through. Source: common practice.
    """
    pairs = _pairs(layout)
    equals = {key for pair in pairs if _equal(layout, pair) for key in pair}
    rules = sorted(((_rule(layout, pair, equals), pair) for pair in pairs), key=lambda item: (item[0].rank, item[1]))
    for rule, pair in rules:
        _settle(layout, rule, pair)


def _pairs(layout: Layout) -> list[Pair]:
    """Ends of different members that lie near one another and in one another's bodies."""
    keys = list(layout.plans)
    points = np.array([layout.body(index).point_at(end) for index, end in keys]).reshape(-1, 3)
    reaches = np.array([layout.body(index).reach for index, _ in keys])
    found = []
    for k, key in enumerate(keys):
        apart = np.linalg.norm(points[k + 1 :] - points[k], axis=1)
        near = [keys[m] for m in np.flatnonzero(apart < reaches[k + 1 :] + reaches[k] + TOUCH_MM) + k + 1]
        found += [(key, other) for other in near if _is_corner(layout, key, other)]
    return found


def _is_corner(layout: Layout, first: EndKey, second: EndKey) -> bool:
    if first[0] == second[0] or _one_path(layout, first, second):
        return False
    if _facing(layout, (first, second)) > -IN_LINE:
        return False  # they lie on one another, which is a clash
    if second[0] in layout.contacts[first] and first[0] in layout.contacts[second]:
        return True
    cut = layout.plans[first].is_cut and layout.plans[second].is_cut
    return cut and layout.presses(first, second[0]) and layout.presses(second, first[0])


def _one_path(layout: Layout, first: EndKey, second: EndKey) -> bool:
    a, b = layout.sticks[first[0]], layout.sticks[second[0]]
    return a.partners[first[1]] == b.index and b.partners[second[1]] == a.index


def _equal(layout: Layout, pair: Pair) -> bool:
    """Whether a mitre would serve: one stock, axes that cross, not in line."""
    first, second = layout.sticks[pair[0][0]], layout.sticks[pair[1][0]]
    one_stock = first.stock.label == second.stock.label
    return one_stock and _facing(layout, pair) > IN_LINE and _axes_cross(layout, pair)


def _facing(layout: Layout, pair: Pair) -> float:
    (i, e), (j, f) = pair
    return float(layout.body(i).outward(e) @ layout.body(j).outward(f))


def _upright(layout: Layout, key: EndKey) -> float:
    return abs(float(layout.body(key[0]).outward(key[1]) @ UP))


def _axes_cross(layout: Layout, pair: Pair) -> bool:
    (i, e), (j, f) = pair
    a, b = layout.body(i), layout.body(j)
    across = cross(a.outward(e), b.outward(f))
    length = size(across)
    return length < 1e-9 or abs(float((a.point_at(e) - b.point_at(f)) @ across)) / length < FLUSH_MM


def _rule(layout: Layout, pair: Pair, equals: set[EndKey]) -> Rule:
    first, second = pair
    said = layout.said(first[0], second[0])
    level = max(_upright(layout, first), _upright(layout, second))
    if _facing(layout, pair) < IN_LINE:
        return Rule((1,), in_line=True)
    if said is not None and said.kind == "mitre":
        return Rule((0, level))
    if said is not None and said.kind == "through":
        return Rule((0, level), through=first if layout.sticks[first[0]].part == said.between[0] else second)
    drawn = _drawn_through(layout, pair)
    if drawn is not None:
        return Rule((2, -level), through=drawn)
    butted = said is not None and said.kind == "butt"
    timber = layout.sticks[first[0]].stock.section.shape == "lumber"
    if _equal(layout, pair) and not butted and not timber:
        return Rule((4, level))
    runner = _runner(layout, pair)
    return Rule((5 if runner in equals else 3, -level), through=runner)


def _drawn_through(layout: Layout, pair: Pair) -> EndKey | None:
    """The end drawn flush with the far side of the other, else whose partner is wanted square; None if neither."""
    first, second = pair
    a, b = layout.sticks[first[0]], layout.sticks[second[0]]
    flush = beyond(a, first[1], b) <= FLUSH_MM, beyond(b, second[1], a) <= FLUSH_MM
    if flush[0] != flush[1]:
        return first if flush[0] else second
    square = [stick.wanted[key[1]] is End.SQUARE for stick, key in ((a, first), (b, second))]
    return None if square[0] == square[1] else second if square[0] else first


def _runner(layout: Layout, pair: Pair) -> EndKey:
    """The larger, else the more upright, else the longer, else the first."""
    first, second = pair

    def weight(key: EndKey) -> tuple[float, float, float]:
        stick = layout.sticks[key[0]]
        return round(stick.stock.section.area, 6), round(_upright(layout, key), 6), round(stick.body.path.length, 6)

    return first if weight(first) >= weight(second) else second


def _settle(layout: Layout, rule: Rule, pair: Pair) -> None:
    first, second = pair
    said = layout.said(first[0], second[0])
    plans = layout.plans[first], layout.plans[second]
    if said is not None and said.kind in LEFT_ALONE:
        plans[0].met = plans[1].met = True
        return
    a, b = layout.body(first[0]), layout.body(second[0])
    point = (a.point_at(first[1]) + b.point_at(second[1])) / 2
    uncut = not plans[0].is_cut and not plans[1].is_cut
    if not (uncut or layout.overlaps(first, second[0]) or layout.overlaps(second, first[0])):
        if layout.touches(first, second[0]) or layout.touches(second, first[0]):
            layout.join(Meeting(JointKind.CORNER, *first, *second, point))
        return
    plans[0].met = plans[1].met = True
    if rule.in_line:
        plans[0].planes.append(Plane(point, a.outward(first[1])))
        plans[1].planes.append(Plane(point, b.outward(second[1])))
        layout.join(Meeting(JointKind.BUTT, *first, *second, point))
        return
    _cut_corner(layout, rule, pair)
    layout.join(Meeting(JointKind.CORNER, *first, *second, point))


def _cut_corner(layout: Layout, rule: Rule, pair: Pair) -> None:
    first, second = pair
    mitred = layout.plans[first].mitred, layout.plans[second].mitred
    if mitred[0] != mitred[1]:
        trim_to(layout, second if mitred[0] else first, first[0] if mitred[0] else second[0])
    elif rule.through is not None:
        giver = second if rule.through == first else first
        _carry_through(layout, rule.through, giver[0])
        trim_to(layout, giver, rule.through[0])
    else:
        _mitre(layout, pair)


def _mitre(layout: Layout, pair: Pair) -> None:
    (i, e), (j, f) = pair
    a, b = layout.body(i), layout.body(j)
    normal = unit(a.outward(e) - b.outward(f))
    point = _crossing(a.point_at(e), a.outward(e), b.point_at(f), b.outward(f))
    for key, side in ((pair[0], normal), (pair[1], -normal)):
        layout.plans[key].planes.append(Plane(point, side))
        layout.plans[key].mitred = True


def _crossing(p: Vector, d: Vector, q: Vector, e: Vector) -> Vector:
    """Middle of the shortest line between two lines through p and q along unit vectors d and e (3,).

    Source: closest points of two skew lines; Ericson, Real-Time Collision Detection, 2005, 5.1.8 (from memory).
    """
    lean = float(d @ e)
    away = q - p
    s = (float(away @ d) - lean * float(away @ e)) / (1 - lean**2)
    t = lean * s - float(away @ e)
    middle: Vector = (p + s * d + q + t * e) / 2
    return middle


def _carry_through(layout: Layout, key: EndKey, other: int) -> None:
    """Carry an end on until it is flush with the far side of the member that gives way to it."""
    stick, plan = layout.sticks[key[0]], layout.plans[key]
    more = beyond(stick, key[1], layout.sticks[other])
    if more > FLUSH_MM and not plan.is_cut:
        outward = stick.body.outward(key[1])
        plan.planes.append(Plane(stick.body.point_at(key[1]) + more * outward, outward))
