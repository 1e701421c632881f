"""The piece in its place as JSON: gaps, things, doors, the floor, shelves, reach, and the survey itself."""

from __future__ import annotations

from fitwright.assess import Assessment
from fitwright.place import Fit, Gap
from fitwright.place.resting import Stance
from fitwright.place.survey import Closure, closures
from fitwright.report.figures import Json, degrees, number, vector


def space(assessment: Assessment) -> Json:
    """Everything found about the piece in its place."""
    fit = assessment.fit
    survey = {"survey": [_closure(one) for one in closures(assessment.job.space)]}
    if fit is None:
        nothing: Json = {"gaps_mm": {}, "gaps": [], "shift_mm": None, "tightest": [], "floor": None}
        return nothing | {name: [] for name in ("things", "doors", "shelves", "reach", "brakes")} | survey
    return {
        "gaps_mm": {gap.side: number(gap.value) for gap in fit.gaps},
        "gaps": [_gap(gap) for gap in fit.gaps],
        "shift_mm": vector(fit.shift),
        "tightest": [_gap(gap) for gap in fit.tightest()],
        "things": [_gap(gap) for gap in fit.things],
        "floor": None if fit.stance is None else _floor(fit.stance),
        **_use(fit),
        **survey,
    }


def _gap(gap: Gap) -> Json:
    return {
        "side": gap.side,
        "gap_mm": number(gap.value),
        "spread_mm": number(gap.spread),
        "at_height_mm": number(gap.height),
        "wanted_mm": number(gap.wanted),
        "against": gap.against,
        "part": gap.part,
        "before_place_mm": number(gap.before),
    }


def _floor(stands: Stance) -> Json:
    return {
        "feet_touching": stands.touching,
        "rock_mm": number(stands.rock),
        "tilt_deg": degrees(stands.tilt),
        "rolls": stands.rolls,
        "feet": [
            {"foot": foot.name, "floor_mm": number(level), "off_floor_mm": number(off), "shim_mm": number(shim)}
            for foot, level, off, shim in zip(
                stands.feet, stands.floor.tolist(), stands.open.tolist(), stands.shims.tolist(), strict=True
            )
        ],
    }


def _use(fit: Fit) -> Json:
    return {
        "doors": [
            {
                "door": swing.name,
                "opens_deg": degrees(swing.opens),
                "wanted_deg": degrees(swing.wanted),
                "touches": swing.touches,
                "gap_mm": None if swing.gap == float("inf") else number(swing.gap),
            }
            for swing in fit.swings
        ],
        "shelves": [
            {"shelf": way.name, "moves": list(way.moves), "gap_mm": number(way.gap), "in_the_way": list(way.in_way)}
            for way in fit.ways_out
        ],
        "reach": [
            {
                "thing": reach.name,
                "from": reach.side,
                "far_mm": number(reach.far),
                "in_the_way": list(reach.in_way),
                "can_be_taken_out": reach.loose,
            }
            for reach in fit.reaches
        ],
        "brakes": [
            {"caster": brake.name, "far_mm": number(brake.far), "in_the_way": list(brake.in_way)}
            for brake in fit.brakes
        ],
    }


def _closure(one: Closure) -> Json:
    return {
        "lengths": one.name,
        "miss_mm": number(one.miss),
        "usual_mm": number(one.usual),
        "chance": number(one.chance),
        "lacks": one.missing,
        "likeliest_wrong": [
            {"length": suspect.name, "measured_mm": number(suspect.measured), "others_say_mm": number(suspect.others)}
            for suspect in one.suspects
        ],
    }
