"""space.route: what stands on the way, in order."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Any

from fitwright.job.obstacles import (
    SPARE_MM,
    Corner,
    Corridor,
    Door,
    Landing,
    Lift,
    Obstacle,
    Stairs,
    Step,
    Van,
    Way,
)
from fitwright.job.resolve.scope import NAN, Scope, known
from fitwright.job.shape.route import (
    CornerShape,
    CorridorShape,
    DoorShape,
    LandingShape,
    LiftShape,
    ObstacleShape,
    StairsShape,
    StepShape,
    VanShape,
)
from fitwright.job.written import Written
from fitwright.units import UnitError, parse_angle

MOST = 30
MOST_STEPS = 60
JAMB_MM = {"inch": 4.75 * 25.4, "mm": 120.0, "cm": 120.0}
BED_MM = {"inch": 24 * 25.4, "mm": 600.0, "cm": 600.0}
LANDING_TURNS = (0, 90, 180)
LEAST_TURN_DEG, MOST_TURN_DEG = 10.0, 135.0
SQUARE = math.pi / 2


def resolve_route(items: Sequence[ObstacleShape], scope: Scope) -> Way:
    """The obstacles, each with its mistakes told at its own line."""
    if len(items) > MOST:
        what = f"{len(items)} obstacles: a route has at most {MOST}"
        scope.wrong(scope.key_place("space", "route"), "space.route", what)
        return ()
    return tuple(_obstacle(item, scope) for item in items)


def _obstacle(item: ObstacleShape, scope: Scope) -> Obstacle:
    match item:
        case DoorShape():
            return _door(item, scope)
        case CorridorShape():
            sizes = _sizes(item, scope, "width", "height", "length")
            return Corridor(**_head(item, item.corridor, scope), **sizes)
        case CornerShape():
            sizes = _sizes(item, scope, "width", "onward", "height")
            turn = _turn(item.turn, scope)
            return Corner(**_head(item, item.corner, scope), first=sizes["width"], second=sizes["onward"],
                          height=sizes["height"], turn=turn)  # fmt: skip
        case StairsShape():
            return _stairs(item, scope)
        case LiftShape():
            sizes = _sizes(item, scope, "door_width", "door_height", "width", "depth", "height")
            load = scope.mass(item.load) if item.load else None
            return Lift(**_head(item, item.lift, scope), **sizes, load=load)
        case VanShape():
            return _van(item, scope)
        case StepShape():
            return Step(**_head(item, item.step, scope), **_sizes(item, scope, "height"))
    raise AssertionError(f"{type(item).__name__} is no obstacle")


def _head(item: ObstacleShape, name: Written, scope: Scope) -> dict[str, Any]:
    spare = scope.length_or(item.spare, SPARE_MM[scope.style.unit], least=0.0)
    return {"name": name.text, "spare": spare, "line": name.place.line}


def _sizes(item: ObstacleShape | LandingShape, scope: Scope, *names: str) -> dict[str, Any]:
    return {name: scope.length(getattr(item, name), above=0.0) for name in names}


def _door(item: DoorShape, scope: Scope) -> Door:
    sizes = _sizes(item, scope, "width", "height")
    swing = scope.length_or(item.swing, 0.0, least=0.0)
    if item.swing and known(swing, sizes["width"]) and swing >= sizes["width"]:
        scope.wrong_at(item.swing, "the leaf leaves nothing of the width: say how far it stands into it")
    return Door(
        **_head(item, item.door, scope),
        **sizes,
        jamb=scope.length_or(item.jamb, JAMB_MM[scope.style.unit], least=0.0),
        before=scope.optional_length(item.before, above=0.0),
        after=scope.optional_length(item.after, above=0.0),
        swing=swing,
    )


def _stairs(item: StairsShape, scope: Scope) -> Stairs:
    steps = scope.count(item.steps, most=MOST_STEPS)
    return Stairs(
        **_head(item, item.stairs, scope),
        **_sizes(item, scope, "width", "headroom", "rise", "run"),
        steps=steps,
        landing=_landing(item.landing, steps, scope) if item.landing else None,
    )


def _landing(item: LandingShape, steps: int, scope: Scope) -> Landing:
    turn = SQUARE if item.turn is None else _angle(item.turn, scope)
    if item.turn is not None and known(turn) and round(math.degrees(turn)) not in LANDING_TURNS:
        what = f"{item.turn.text} is not a turn of a landing"
        scope.wrong_at(item.turn, what, tuple(f"{angle} deg" for angle in LANDING_TURNS))
    after = scope.count(item.after, most=MOST_STEPS)
    if after >= steps:
        scope.wrong_at(item.after, f"{after} steps below the landing, of {steps} in all: none are left above it")
    sizes = _sizes(item, scope, "length", "width")
    return Landing(**sizes, turn=turn, after=after, gap=scope.length_or(item.gap, 0.0, least=0.0))


def _van(item: VanShape, scope: Scope) -> Van:
    arches = item.arches
    return Van(
        **_head(item, item.van, scope),
        **_sizes(item, scope, "door_width", "door_height", "length", "width", "height"),
        arches=(scope.length(arches.apart, above=0.0), scope.length(arches.height, above=0.0)) if arches else None,
        bed=scope.length_or(item.bed, BED_MM[scope.style.unit], least=0.0),
    )


def _turn(written: Written | None, scope: Scope) -> float:
    if written is None:
        return SQUARE
    turn = _angle(written, scope)
    if known(turn) and not LEAST_TURN_DEG <= math.degrees(turn) <= MOST_TURN_DEG:
        what = f"{written.text}: a corner turns by {LEAST_TURN_DEG:g} to {MOST_TURN_DEG:g} degrees"
        scope.wrong_at(written, what)
    return turn


def _angle(written: Written, scope: Scope) -> float:
    try:
        return parse_angle(written.text)
    except UnitError as error:
        scope.wrong_at(written, str(error))
        return NAN
