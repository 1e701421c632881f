"""The way in as JSON: each leg with its answer, what would ease it, and each carry."""

from __future__ import annotations

import math

from fitwright.assess import Assessment
from fitwright.place.route import Carry, Easing, Passage, Route
from fitwright.place.route.chain import Turnover
from fitwright.place.route.legs import Leg
from fitwright.place.route.splitting import Split
from fitwright.report.figures import Json, number, vector


def way_in(assessment: Assessment) -> Json | None:
    """The whole route; None where the job says none."""
    route = assessment.route
    if route is None:
        return None
    return {
        "answer": route.answer.value,
        "tightest": route.legs[route.tightest].name,
        "seconds": number(route.seconds),
        "stopped": route.stopped,
        "legs": [_leg(leg, passage) for leg, passage in zip(route.legs, route.passages, strict=True)],
        "turned_over": [_turnover(route, turn) for turn in route.turnovers],
        "easings": [_easing(easing) for easing in route.easings],
        "carries": [_carry(carry) for carry in assessment.carries],
    }


def _leg(leg: Leg, passage: Passage) -> Json:
    return {
        "name": leg.name,
        "kind": leg.kind,
        "answer": passage.answer.value,
        "held": passage.stance.words if passage.stance else None,
        "rolled": passage.rolled,
        "room_each_side_mm": _finite(passage.spot.room),
        "tightest_at": passage.spot.what,
        "least_clearance_mm": None if passage.clearance is None else number(passage.clearance),
        "missing_mm": number(passage.missing),
        "known_by": passage.proof,
        "ways_of_holding_looked_at": passage.tried,
        "poses": [{"turn": [vector(row) for row in pose.turn], "at_mm": vector(pose.at)} for pose in passage.poses],
    }


def _turnover(route: Route, turn: Turnover) -> Json:
    return {
        "before": turn.where(route.legs),
        "from": turn.start.words,
        "to": turn.finish.words,
        "needs_height_mm": number(turn.needs),
        "has_height_mm": None if turn.has is None else number(turn.has),
    }


def _easing(easing: Easing) -> Json:
    return {
        "name": easing.name,
        "passes": easing.passes,
        "missing_mm": number(easing.missing),
        "tightest": easing.where,
        "cut": None if easing.cut is None else _cut(easing.cut),
        "parts": [{"name": one.bulk.name, "mass_kg": number(one.bulk.mass)} for one in easing.routes],
    }


def _cut(cut: Split) -> Json:
    return {"across": "xyz"[cut.axis], "at_mm": number(cut.at), "joints": cut.cuts}


def _carry(carry: Carry) -> Json:
    return {
        "leg": carry.leg.name,
        "what": carry.bulk.name,
        "mass_kg": number(carry.mass),
        "rolled": carry.rolled,
        "people": carry.people,
        "recommended_limit_kg": None if carry.limit is None else number(carry.limit),
        "lifting_index": None if carry.index is None else number(carry.index),
        "heavier_end_share": number(carry.share),
        "holds": [
            {"person": one.person, "mark": one.mark, "member": one.name, "from": one.end,
             "distance_mm": number(one.along), "height_mm": number(one.height), "at_mm": vector(one.at)}
            for one in carry.holds
        ],
        "cautions": list(carry.cautions),
    }  # fmt: skip


def _finite(value: float) -> float | None:
    return number(value) if math.isfinite(value) else None
