"""space: the opening from its several measurements, gaps, neighbours, walls."""

from __future__ import annotations

import math

from pydantic import BaseModel

from fitwright.job.model import Door, Measured, Neighbour, Opening, PlanSurvey, Skirting, Space, Thing
from fitwright.job.resolve.head import CLEAR_TIGHT_MM
from fitwright.job.resolve.route import resolve_route
from fitwright.job.resolve.scope import Scope, known
from fitwright.job.shape.space import (
    DoorShape,
    MeasuredShape,
    NeighbourShape,
    OpeningShape,
    PlanShape,
    SkirtingShape,
    SpaceShape,
    ThingShape,
)
from fitwright.job.written import Written

Pairs = tuple[tuple[float, float], ...]
Given = Written | list[Written | MeasuredShape] | None
LEAF_MM = {"inch": 1.375 * 25.4, "mm": 40.0, "cm": 40.0}  # thickness of a room door's leaf: common practice
NO_TOP_MM = 2500.0  # the top of a leaf whose height nobody said, where the opening's is not known either
AXIS = {"left": 0, "right": 0, "front": 1, "back": 1}
ROUND = ("front left to back right", "front right to back left")
# the two sides that make a triangle with each diagonal, twice
TRIANGLES = ((("front", "right"), ("left", "back")), (("front", "left"), ("right", "back")))
# the corners of a room are nearer to square than these: common practice; beyond, a length is a slip and fits no plan
SHARPEST, BLUNTEST = math.radians(30), math.radians(150)


def resolve_space(space: SpaceShape | None, scope: Scope) -> Space:
    """The space section."""
    if space is None:
        return Space()
    return Space(
        opening=_opening(space.opening, scope) if space.opening else None,
        clear=_sides(space.clear, scope, least=0.0),
        stand=_sides(space.stand, scope),
        neighbours=tuple(_neighbour(name, one, scope) for name, one in space.neighbours.items()),
        walls=_sides(space.walls, scope),
        route=resolve_route(space.route, scope),
        within=scope.optional_length(space.within, above=0.0),
        floor=tuple((_on_plan(level.at, scope), scope.length(level.height)) for level in space.floor),
        uneven=scope.optional_length(space.uneven),
        aisle=scope.optional_length(space.aisle),
        skirting=_skirting(space.skirting, scope) if space.skirting else None,
        things=tuple(_thing(name, one, scope) for name, one in space.things.items()),
        doors=tuple(_door(name, one, space.opening, scope) for name, one in space.doors.items()),
        clean=_sides(space.clean, scope, least=0.0),
        level=scope.optional_length(space.level, above=0.0),
    )


def _sides(shape: BaseModel | None, scope: Scope, least: float | None = None) -> dict[str, float]:
    """Lengths by side, of those that are given."""
    if shape is None:
        return {}
    given = ((side, getattr(shape, side)) for side in type(shape).model_fields)
    return {
        side: scope.length(value) if least is None else scope.length(value, least=least)
        for side, value in given
        if value is not None
    }


def _opening(opening: OpeningShape, scope: Scope) -> Opening:
    across = _sizes(opening.width)
    upward = _sizes(opening.height)
    width = min(_known_lengths(across, scope), default=None)
    height = min(_known_lengths(upward, scope), default=None)
    measures = (
        *_measures("width", opening.width, height, "height", scope),
        *_measures("depth", opening.depth, height, "height", scope),
        *_measures("height", opening.height, width, "width", scope),
    )
    if opening.skew and opening.plan:
        scope.wrong(
            scope.key_place("space", "opening", "skew"),
            "space.opening.skew",
            "plan says how the walls run: leave out skew",
        )
    if opening.skew and not (opening.depth and opening.width):
        what = "skew needs the opening's width and depth: give them too"
        scope.wrong(scope.key_place("space", "opening", "skew"), "space.opening.skew", what)
    return Opening(
        widths=_smallest(measures, "width"),
        depths=_smallest(measures, "depth"),
        tops=_smallest(measures, "height"),
        lean=_sides(opening.lean, scope),
        measures=measures,
        skew=_sides(opening.skew, scope),
        plan=_plan(opening.plan, scope) if opening.plan else None,
    )


def _smallest(measures: tuple[Measured, ...], what: str) -> Pairs:
    """(position, size), the smallest of those measured at one position, in the order in which they are written."""
    found: dict[float, float] = {}
    for one in measures:
        if one.what == what:
            found[one.at] = min(one.size, found.get(one.at, math.inf))
    return tuple(found.items())


def _plan(plan: PlanShape, scope: Scope) -> PlanSurvey:
    sides = {side: scope.length(getattr(plan, side), above=0.0) for side in ("front", "back", "left", "right")}
    across = {name: scope.length(one, above=0.0) for name, one in zip(ROUND, plan.diagonals, strict=False)}
    for written, diagonal, triangles in zip(plan.diagonals, across.values(), TRIANGLES, strict=False):
        wrong = [said for pair in triangles if (said := _no_triangle(diagonal, pair, sides, scope))]
        if wrong:
            scope.wrong_at(written, wrong[0])
    return PlanSurvey({**sides, **across}, scope.length_or(plan.at, 0.0, least=0.0))


def _no_triangle(diagonal: float, pair: tuple[str, str], sides: dict[str, float], scope: Scope) -> str:
    """What is wrong with a diagonal that makes no corner of a room with two sides; "" for one that does."""
    one, other = (sides[side] for side in pair)
    if not known(diagonal, one, other):
        return ""
    least, most = (math.sqrt(one**2 + other**2 - 2 * one * other * math.cos(angle)) for angle in (SHARPEST, BLUNTEST))
    if least <= diagonal <= most:
        return ""
    length = scope.style.length
    return (
        f"with a {pair[0]} side of {length(one)} and a {pair[1]} side of {length(other)} a diagonal is {length(least)} "
        f"to {length(most)}: measure all three again"
    )


def _sizes(given: Given) -> list[Written]:
    if given is None:
        return []
    items = given if isinstance(given, list) else [given]
    return [item.size if isinstance(item, MeasuredShape) else item for item in items]


def _known_lengths(sizes: list[Written], scope: Scope) -> list[float]:
    """The lengths that can be worked out; the mistakes of the others are told where they are used."""
    return [length for size in sizes if known(length := scope.glance(size))]


def _measures(what: str, given: Given, over: float | None, over_name: str, scope: Scope) -> tuple[Measured, ...]:
    """Each measurement; three plain sizes stand at the start, middle and end of `over`."""
    if given is None:
        return ()
    if isinstance(given, Written):
        return (Measured(what, 0.0, scope.length(given, above=0.0)),)
    if all(isinstance(item, MeasuredShape) for item in given) and given:
        return tuple(_measured(what, item, scope) for item in given if isinstance(item, MeasuredShape))
    plain = [item for item in given if isinstance(item, Written)]
    return tuple(Measured(what, at, size) for at, size in _three(plain, len(given), over, over_name, scope))


def _measured(what: str, item: MeasuredShape, scope: Scope) -> Measured:
    return Measured(
        what,
        scope.length(item.at, least=0.0),
        scope.length(item.size, above=0.0),
        scope.length_or(item.station, 0.0, least=0.0),
        scope.optional_length(item.within, above=0.0),
    )


def _three(plain: list[Written], count: int, over: float | None, over_name: str, scope: Scope) -> Pairs:
    sizes = [scope.length(size, above=0.0) for size in plain]
    if plain and (len(plain) != 3 or count != 3):
        scope.wrong_at(plain[0], "a list of sizes has three; for others write {at: …, is: …} for each")
    elif plain and over is None:
        scope.wrong_at(
            plain[0], f"three sizes need the opening's {over_name} to be placed: give it, or {{at: …, is: …}} for each"
        )
    return tuple(zip((0.0, (over or 0.0) / 2, over or 0.0), sizes, strict=False))


def _neighbour(name: str, shape: NeighbourShape, scope: Scope) -> Neighbour:
    height = scope.optional_length(shape.height, above=0.0)
    depth = scope.optional_length(shape.depth, above=0.0)
    match = _sides(shape.match, scope)
    for what, own in (("height", height), ("depth", depth)):
        written = getattr(shape.match, what) if shape.match else None
        if written is not None and own is None:
            scope.wrong_at(written, f"to match its {what}, give the neighbour's own {what} too")
    return Neighbour(
        name=name,
        where=scope.where("space", "neighbours", name),
        side=shape.side,
        height=height,
        depth=depth,
        match=match,
        within=scope.length_or(shape.within, CLEAR_TIGHT_MM[scope.style.unit], least=0.0),
    )


def _on_plan(at: list[Written], scope: Scope) -> tuple[float, float]:
    x, y = (scope.length(one) for one in at)
    return x, y


def _skirting(shape: SkirtingShape, scope: Scope) -> Skirting:
    height, thickness = (scope.length(one, above=0.0) for one in (shape.height, shape.thickness))
    return Skirting(height, thickness, tuple(dict.fromkeys(shape.on)))


def _thing(name: str, shape: ThingShape, scope: Scope) -> Thing:
    place, where = scope.key_place("space", "things", name), f"space.things.{name}"
    corners, on_wall = (shape.low, shape.high), (shape.on, shape.at, shape.size)
    low = high = (math.nan,) * 3
    if all(corners) and not any(on_wall):
        first, second = scope.point(shape.low or []), scope.point(shape.high or [])
        low = (min(first[0], second[0]), min(first[1], second[1]), min(first[2], second[2]))
        high = (max(first[0], second[0]), max(first[1], second[1]), max(first[2], second[2]))
    elif all(on_wall) and not any(corners):
        along, up = _on_plan(shape.at or [], scope)
        wide, tall, out = (scope.length(one, above=0.0) for one in shape.size or ())
        low, high = (along, up, 0.0), (along + wide, up + tall, out)
    else:
        scope.wrong(place, where, "a thing is a box: give from and to, or on, at and size")
    if shape.room and not shape.reach:
        scope.wrong_at(shape.room, "room is for a hand: say with reach from which side it comes")
    return Thing(
        name, scope.where("space", "things", name), low, high, shape.on, shape.reach, scope.optional_length(shape.room)
    )


def _door(name: str, shape: DoorShape, opening: OpeningShape | None, scope: Scope) -> Door:
    if AXIS[shape.shut] == AXIS[shape.opens]:
        what = f"a door that points to the {shape.shut} when shut opens to one of the sides square to that"
        scope.wrong(scope.key_place("space", "doors", name), f"space.doors.{name}", what)
    tops = _known_lengths(_sizes(opening.height), scope) if opening else []
    return Door(
        name,
        scope.where("space", "doors", name),
        _on_plan(shape.hinge, scope),
        scope.length(shape.width, above=0.0),
        scope.length(shape.height, above=0.0) if shape.height else max(tops, default=NO_TOP_MM),
        scope.length_or(shape.thickness, LEAF_MM[scope.style.unit], least=0.0),
        shape.shut,
        shape.opens,
        math.radians(scope.number(shape.turns, least=1, most=180) if shape.turns else 90.0),
    )
