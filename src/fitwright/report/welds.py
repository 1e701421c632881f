"""The welds, their order, and how they pull."""

from __future__ import annotations

from fitwright.assess import Assessment
from fitwright.making.welding import Weld, WeldPlan
from fitwright.mechanics.shrinkage import Movement
from fitwright.report.figures import Json, number, vector


def welding_as_json(assessment: Assessment) -> Json:
    """The welds with everything about making them."""
    return {"welds": welds(assessment), "welding": welding(assessment)}


def welds(assessment: Assessment) -> list[Json]:
    """Every weld, as listed; `order` are the numbers of its runs in the order proposed."""
    plan = assessment.welding
    if plan is None:
        return []
    orders = {point.weld: list(point.orders) for point in plan.map_points}
    return [_weld(assessment, plan, weld, orders.get(weld.number, [])) for weld in plan.welds]


def _weld(assessment: Assessment, plan: WeldPlan, weld: Weld, order: list[int]) -> Json:
    mark_of = assessment.piece.mark_of
    return {
        "number": weld.number,
        "name": weld.name,
        "between": [weld.first, weld.second],
        "marks": [mark_of.get(weld.first), mark_of.get(weld.second)],
        "kind": weld.kind.value,
        "order": order,
        "thickness_mm": number(weld.thickness),
        "leg_mm": number(weld.leg),
        "least_leg_mm": number(weld.least),
        "most_leg_mm": number(weld.most),
        "throat_mm": number(weld.throat),
        "length_mm": number(weld.length),
        "gap_mm": number(weld.gap),
        "tacks": sum(tack.weld == weld.number for tack in plan.tacks),
        "heat_j_per_mm": number(weld.heat),
        "current_a": number(weld.current),
        "voltage_v": number(weld.voltage),
        "at_mm": vector(weld.at),
    }


def welding(assessment: Assessment) -> Json | None:
    """Tacks and runs in order, movement and what is used up; null for a piece that is no frame or has no welds."""
    plan = assessment.welding
    if plan is None or not plan.welds:
        return None
    return {
        "tacks": [
            {
                "number": tack.number,
                "weld": tack.weld,
                "side": tack.side,
                "length_mm": number(tack.length),
                "at_mm": vector(tack.at),
            }
            for tack in plan.tacks
        ],
        "runs": [
            {
                "number": step.number,
                "weld": step.weld,
                "side": step.side,
                "length_mm": number(step.length),
                "second_side": step.second,
            }
            for step in plan.steps
        ],
        "groups": _groups(plan),
        "filler_kg": number(plan.used.filler),
        "gas_l": number(plan.used.gas),
        "arc_time_s": number(plan.used.arc_time),
        "limits": list(plan.limits),
    }


def _groups(plan: WeldPlan) -> list[Json]:
    return [
        {
            "members": list(group.members),
            "orders_tried": group.tried,
            "stopped": group.stopped,
            "movement_listed_mm": number(group.listed),
            "movement_proposed_mm": number(group.proposed),
            "largest_listed": [_movement(movement) for movement in group.listed_largest],
            "largest_proposed": [_movement(movement) for movement in group.largest],
            "largest_clamp_force_n": number(group.largest_clamp_force),
        }
        for group in plan.groups
    ]


def _movement(movement: Movement) -> Json:
    """How a length changes: likely, and between which ends nine in ten lie; more than 0 is growing."""
    change = movement.change
    return {
        "kind": movement.measure.kind,
        "subject": movement.measure.subject,
        "nominal_mm": number(movement.measure.nominal),
        "low_mm": number(change.low),
        "likely_mm": number(change.mean),
        "high_mm": number(change.high),
        "words": movement.words(),
    }
