"""Whether the piece gets there: each leg of the route, and where it has to be turned over on the way."""

from __future__ import annotations

import numpy as np

from fitwright.findings import Finding, Verdict, at_least, at_most, needs_input
from fitwright.job.model import Job
from fitwright.place.route import Answer, Passage, Route
from fitwright.place.route.chain import AT_PLACE, Turnover
from fitwright.place.route.legs import Leg

AREA = "route"
BASIS = "the survey of the route; clearances of the real parts along every step of the way, exact"
HEIGHT = "diagonal of the outline against the ceiling, every tilt between"
CHECK = "room for hands on each side"


def route_findings(job: Job, route: Route | None) -> list[Finding]:
    """A finding for each leg, as built where that passes, else with what it took; none where no route is said."""
    if route is None:
        return []
    found = [_leg(job, route, leg, passage) for leg, passage in zip(route.legs, route.passages, strict=True)]
    return found + [one for turn in route.turnovers for one in _turnover(job, route, turn)]


def _leg(job: Job, route: Route, leg: Leg, passage: Passage) -> Finding:
    if passage.answer is Answer.NOT_FOUND and not parts_off(route):
        return Finding(
            AREA, leg.name, "a way through", Verdict.NEEDS_INPUT, basis=passage.proof, advice=not_found(route)
        )
    if passage.answer is not Answer.PASSES:
        verdict, lacking = Verdict.TIGHT if parts_off(route) else Verdict.FAILS, -passage.missing
        return Finding(
            AREA, leg.name, "room to get through", verdict, lacking, 0.0, lacking, "mm",
            passage.proof, advice_for(job, route, passage), how(job, passage),
        )  # fmt: skip
    spare = passage.obstacle.spare
    room = passage.spot.room if np.isfinite(passage.spot.room) else spare
    advice = f"held {words(passage)}; tightest at {passage.spot.what}: mind knuckles, wrap the edges there"
    return at_least(AREA, leg.name, CHECK, room, 0.0, "mm", tight=spare, basis=BASIS, advice=advice,
                    formula=how(job, passage))  # fmt: skip


def parts_off(route: Route) -> bool:
    """Whether it passes with parts taken off that come off anyway, which a maker may accept."""
    return any(easing.passes and len(easing.routes) == 1 for easing in route.easings)


def words(passage: Passage) -> str:
    """How it is held or rolled, in words."""
    if passage.stance is None:
        return ""
    return "upright on its casters" if passage.rolled else passage.stance.words


def how(job: Job, passage: Passage) -> str:
    """The answer in one line, with what it rests on."""
    length = job.style.length
    if passage.answer is Answer.PASSES:
        near = "" if passage.clearance is None else f"nearest {length(passage.clearance)} to {passage.spot.what}; "
        return f"{words(passage)}: {near}{passage.proof}"
    lacking = f"{length(passage.missing)} lacking at {passage.spot.what}"
    return f"nearest to passing {words(passage)}: {lacking}; {passage.proof}"


def advice_for(job: Job, route: Route, passage: Passage) -> str:
    """What would make it pass."""
    passing = [easing.name for easing in route.easings if easing.passes]
    if passing:
        return f"passes {passing[0]}"
    tried = [
        f"{easing.name} lacks {job.style.length(easing.missing)}" for easing in route.easings if easing.missing > 0
    ]
    least = f"{job.style.length(passage.missing)} lacking at {passage.spot.what}"
    return f"{least}; tried: {', '.join(tried)}" if tried else f"{least}: make it smaller or take another way in"


def not_found(route: Route) -> str:
    """What to do where nothing was shown either way."""
    passing = [easing.name for easing in route.easings if easing.passes]
    return f"passes {passing[0]}" if passing else "not found in the time: try it on the spot with a frame of laths"


def _turnover(job: Job, route: Route, turn: Turnover) -> list[Finding]:
    """Height against what turning it over takes; asked for where it is to be stood up in its place."""
    at_place, length = turn.before == len(route.legs), job.style.length
    check = "height to stand it up" if at_place else "height to turn it over before"
    if turn.has is None:
        missing = f"space: route: at the end a corridor as high as the room; {length(turn.needs)} is needed there to"
        asked = needs_input(AREA, AT_PLACE, check, f"{missing} stand it up from {turn.start.words}", basis=HEIGHT)
        return [asked] if at_place else []
    spare = route.legs[min(turn.before, len(route.legs) - 1)].obstacle.spare
    found = at_most(
        AREA, turn.where(route.legs), check, turn.needs, turn.has, "mm", tight=spare, basis=HEIGHT,
        advice=f"from {turn.start.words} to {turn.finish.words}: turn it over where there is more height",
        formula=f"{length(turn.needs)} at its highest, {length(turn.has)} there",
    )  # fmt: skip
    return [found]
