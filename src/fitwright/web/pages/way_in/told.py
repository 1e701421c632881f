"""The way in as the page shows it, worked out aside: answers in words, and a picture of every step."""

from __future__ import annotations

from dataclasses import dataclass

from fitwright.assess import Assessment
from fitwright.place.route import Answer, Carry, Passage, Route
from fitwright.place.route.legs import Leg
from fitwright.sheets.route_told import carried, eased, held, room, unturned
from fitwright.sheets.way import frames_of, hands_of
from fitwright.units import Style
from fitwright.web.aside import Tell

SEARCHING = 0.8
"""Of the time, what the search takes; the rest draws."""
CLASSES = {Answer.PASSES: "holds", Answer.NO: "fails", Answer.NOT_FOUND: "needs-input"}
MARKS = {Answer.PASSES: "✓", Answer.NO: "✕", Answer.NOT_FOUND: "?"}


@dataclass(frozen=True)
class LegTold:
    """One leg: its words, and its steps as SVG, the tightest at `spot`."""

    name: str
    part: str
    answer: str
    mark: str
    kind: str
    held: str
    room: str
    tightest: str
    known_by: str
    carry: str
    cautions: tuple[str, ...]
    svgs: tuple[str, ...]
    spot: int


@dataclass(frozen=True)
class WayTold:
    """All of it; answer in a word, its class, and in a sentence."""

    answer: str
    kind: str
    mark: str
    said: str
    legs: tuple[LegTold, ...]
    turned: tuple[str, ...]
    easings: tuple[str, ...]
    stopped: bool


def way_told(assessment: Assessment, tell: Tell) -> WayTold | None:
    """What the page shows; None where the job says no route."""
    tell("the piece", 0.02)
    _ = assessment.piece
    route = assessment.find_way(lambda step, share: tell(step, SEARCHING * share))
    if route is None:
        return None
    tell("drawing the steps", SEARCHING)
    style = assessment.job.style
    carries = {id(one.passage): one for one in assessment.carries}
    shown = route.shown
    legs = tuple(
        _leg(way, leg, passage, carries.get(id(passage)), style, len(shown) > 1)
        for way in shown
        for leg, passage in zip(way.legs, way.passages, strict=True)
    )
    turned = tuple(
        f"{turn.when(way.legs)} from {turn.start.words} to {turn.finish.words}"
        for way in shown
        for turn in way.turnovers
    )
    return WayTold(route.answer.value, CLASSES[route.answer], MARKS[route.answer], _said(route, style), legs, turned,
                   tuple(eased(one, style) for one in route.easings), route.stopped)  # fmt: skip


def _said(route: Route, style: Style) -> str:
    spot, name = route.passages[route.tightest], route.legs[route.tightest].name
    if route.answer is Answer.PASSES:
        return f"As built it gets there. Tightest at “{name}”: {style.length(spot.spot.room)} on each side."
    helps = next((one.name for one in route.easings if one.passes), "")
    lacking = (
        unturned(route, route.unturned, style)
        if route.unturned is not None and spot.missing <= 0
        else f"{style.length(spot.missing)} lacking at “{name}” ({spot.spot.what})"
        if spot.missing > 0
        else f"not found at “{name}”"
    )
    return f"As built it does not: {lacking}. " + (f"It does {helps}, and so it is shown." if helps else "")


def _leg(way: Route, leg: Leg, passage: Passage, carry: Carry | None, style: Style, parted: bool) -> LegTold:
    frames = frames_of(leg, passage, way.bulk, hands_of(carry.holds if carry else ()))
    return LegTold(
        leg.name,
        way.bulk.name if parted else "",
        passage.answer.value,
        MARKS[passage.answer],
        CLASSES[passage.answer],
        held(passage),
        room(passage, style),
        passage.spot.what,
        passage.proof,
        "" if carry is None else carried(carry, style),
        () if carry is None else carry.cautions,
        () if frames is None else frames.svgs,
        0 if frames is None else frames.spot,
    )
