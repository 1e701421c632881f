"""The way in: every obstacle with the moves through it, who holds where, and what to mind."""

from __future__ import annotations

from fitwright.assess import Assessment
from fitwright.place.route import Answer, Carry, Passage, Route
from fitwright.place.route.legs import Leg
from fitwright.place.route.lifting import NIOSH, TEAM
from fitwright.sheets.drawing import Drawing
from fitwright.sheets.packet.legs import leg_picture
from fitwright.sheets.packet.model import Json, Page
from fitwright.sheets.packet.tables import breakable
from fitwright.sheets.route_told import SIGNS, eased, held, holding, room, unturned
from fitwright.sheets.way import hands_of
from fitwright.units import Style

TITLE = "The way in"
ROOM = (57.0, 66.0)
NOTES = (
    "Numbers show the order of the steps; the one drawn in full is the tightest, rings show where hands go. Between "
    "two obstacles the piece is taken to have room to be turned to its heading. A bend in the way is drawn to the "
    "right; to the left it is the mirror image.",
    f"People by {NIOSH.partition(',')[0]} and {TEAM.partition(':')[0]}: nobody over the recommended limit, hands "
    "300 mm before the ankles. Gloves, shoes with grip, a clear floor, one who gives the word (common practice).",
)


def way_in_page(assessment: Assessment) -> Page | None:
    """The sheet; None where the job says no route."""
    route, style = assessment.route, assessment.job.style
    if route is None:
        return None
    pictures: dict[str, Drawing] = {}
    carries = {id(carry.passage): carry for carry in assessment.carries}
    cells = []
    for number, (way, leg, passage) in enumerate(_all(route), 1):
        carry = carries.get(id(passage))
        drawing = leg_picture(leg, passage, way.bulk, style, ROOM, hands_of(carry.holds if carry else ()))
        if drawing is not None:
            pictures[f"leg-{number}"] = drawing
        told = _cell(number, leg, passage, carry, style)
        part = way.bulk.name if len(route.shown) > 1 else ""
        cells.append({**told, "part": part, "picture": f"leg-{number}" if drawing is not None else None})
    content: Json = {
        "intro": _intro(route, style),
        "cells": cells,
        "turned": [_turned(route, number) for number in range(len(route.shown[0].turnovers))],
        "easings": [breakable(eased(easing, style)) for easing in route.easings],
        "notes": list(NOTES),
    }
    return Page("way_in", TITLE, content, pictures)


def _all(route: Route) -> list[tuple[Route, Leg, Passage]]:
    return [(way, leg, passage) for way in route.shown for leg, passage in zip(way.legs, way.passages, strict=True)]


def _intro(route: Route, style: Style) -> str:
    name, shown = route.bulk.name, route.shown[0]
    if route.answer is Answer.PASSES:
        tight = route.passages[route.tightest]
        return (f"The piece gets there {name}; tightest at “{route.legs[route.tightest].name}”, "
                f"{style.length(tight.spot.room)} on each side.")  # fmt: skip
    spot = route.passages[route.tightest]
    lacking = f"{style.length(spot.missing)} lacking at “{route.legs[route.tightest].name}” ({spot.spot.what})"
    turn = route.unturned if spot.missing <= 0 else None
    if turn is not None:
        lacking = unturned(route, turn, style)
    helps = [easing.name for easing in route.easings if easing.passes]
    if helps:
        weight = style.weight(shown.bulk.mass)
        return f"As built it does not get there: {lacking}. It does {helps[0]}, and so it is shown ({weight})."
    if spot.missing <= 0 and turn is None:
        return f"A way was not found in the time at “{route.legs[route.tightest].name}”: try it with a frame of laths."
    return f"It does not get there: {lacking}, and nothing that was tried helps."


def _cell(number: int, leg: Leg, passage: Passage, carry: Carry | None, style: Style) -> Json:
    return {
        "number": str(number),
        "name": breakable(leg.name),
        "sign": SIGNS[passage.answer],
        "held": held(passage) if passage.answer is Answer.PASSES else "",
        "room": _room(passage, style),
        "carry": "" if carry is None else _carry(carry, style),
        "holding": "" if carry is None or carry.rolled or not carry.holds else holding(carry, style),
        "cautions": [] if carry is None else list(carry.cautions),
    }


def _room(passage: Passage, style: Style) -> str:
    return room(passage, style) if passage.answer is Answer.PASSES else f"{room(passage, style)}: {passage.proof}"


def _carry(carry: Carry, style: Style) -> str:
    weight = style.weight(carry.mass)
    if carry.rolled:
        return f"{weight}, rolls: one pushes, one guides"
    if carry.people is None:
        return f"{weight}: more than 4 people"
    return f"{weight}: {carry.people} {'people' if carry.people > 1 else 'person'}"


def _turned(route: Route, number: int) -> str:
    shown = route.shown[0]
    turn = shown.turnovers[number]
    return f"{turn.when(shown.legs)} from {turn.start.words} to {turn.finish.words}"
