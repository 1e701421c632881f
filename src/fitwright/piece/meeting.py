"""Which parts the ends of the members meet, and which of two gives way."""

from __future__ import annotations

from fitwright.job.model import JointSpec
from fitwright.piece.corners import LEFT_ALONE, settle_corners
from fitwright.piece.drawn import support
from fitwright.piece.ends import (
    TOUCH_MM,
    EndKey,
    EndPlan,
    Layout,
    Meeting,
    Surroundings,
    contacts,
    plan_surroundings,
    plan_wish,
    trim_to,
)
from fitwright.piece.model import JointKind
from fitwright.piece.sticks import Stick
from fitwright.piece.trim import nearest_axis

ALONG = 0.985


def meet(sticks: list[Stick], around: Surroundings, overrides: tuple[JointSpec, ...]) -> Layout:
    """Plan every end, and list the joints between members.

    First what the maker draws and wants, then floor, walls and boards, then tees on members that run past, then
    corners, then whatever still runs into a member.
    """
    plans = {(stick.index, end): EndPlan() for stick in sticks if not stick.body.path.closed for end in (0, 1)}
    layout = Layout(sticks, overrides, plans, contacts(sticks, list(plans)))
    for (index, end), plan in plans.items():
        _drawn_corner(layout, sticks[index], end)
        plan_wish(sticks[index], end, plan)
        plan_surroundings(sticks[index], end, plan, around)
        plan.met = plan.met or bool(layout.contacts[index, end])
    for key in plans:
        _settle_tees(layout, key, [k for k in layout.contacts[key] if _runs_past(layout, key, k)])
    settle_corners(layout)
    for key in plans:
        _settle_tees(layout, key, layout.contacts[key])
    return layout


def _drawn_corner(layout: Layout, stick: Stick, end: int) -> None:
    mitre, partner = stick.mitres[end], stick.partners[end]
    if mitre is None or partner is None:
        return
    plan = layout.plans[stick.index, end]
    plan.planes.append(mitre)
    plan.met = plan.mitred = True
    if end == 1:
        layout.join(Meeting(JointKind.CORNER, stick.index, 1, partner, 0, mitre.point))


def _runs_past(layout: Layout, key: EndKey, other: int) -> bool:
    """Whether the other member has no end of its own in this one."""
    return not any(key[0] in layout.contacts.get((other, end), ()) for end in (0, 1))


def _settle_tees(layout: Layout, key: EndKey, others: list[int]) -> None:
    for other in others:
        said = layout.said(key[0], other)
        if (key, other) in layout.joined or (said is not None and said.kind in LEFT_ALONE):
            continue
        if layout.presses(key, other) or not layout.plans[key].is_cut:
            joined = _gives_way(layout, key, other) and trim_to(layout, key, other)
        else:
            joined = layout.touches(key, other)
        if joined:
            layout.join(_tee(layout, key, other))


def _tee(layout: Layout, key: EndKey, other: int) -> Meeting:
    """A tee, or a corner where the end covers an end of the other member."""
    here = layout.body(key[0]).point_at(key[1])
    point, _ = nearest_axis(layout.body(other), here)
    covered = next((end for end in (0, 1) if (other, end) in layout.plans and _covers(layout, key, (other, end))), None)
    kind = JointKind.TEE if covered is None else JointKind.CORNER
    return Meeting(kind, *key, other, covered, (point + here) / 2)


def _covers(layout: Layout, key: EndKey, tip: EndKey) -> bool:
    body, other = layout.body(key[0]), layout.body(tip[0])
    outward = other.outward(tip[1])
    past = float((other.point_at(tip[1]) - body.point_at(key[1])) @ outward)
    near = other.point_at(tip[1]) - body.point_at(key[1])
    if float(near @ near) > (2 * (body.reach + other.reach)) ** 2:
        return False
    return past <= support(body.section, body.frame_at(key[1]), outward) + TOUCH_MM


def _gives_way(layout: Layout, key: EndKey, other: int) -> bool:
    """An end that runs along the other member's side is no tee: it laps it."""
    body = layout.body(key[0])
    _, along = nearest_axis(layout.body(other), body.point_at(key[1]))
    return abs(float(along @ body.outward(key[1]))) < ALONG
