"""What the page of the way in answers."""

from __future__ import annotations

import asyncio
from collections.abc import Callable
from typing import Any

from starlette.responses import Response

from fitwright.errors import FitwrightError
from fitwright.job import JobFileError
from fitwright.web.desk import Work
from fitwright.web.errors import NotTaken, NotThere, Stale
from fitwright.web.guard.headers import PICTURE_POLICY
from fitwright.web.keeping import replace_text
from fitwright.web.pages.way_in.entries import LABELS, blank, entries
from fitwright.web.pages.way_in.told import WayTold, way_told
from fitwright.web.pages.way_in.writing import moved_up, with_changed, with_new, without_one
from fitwright.web.trouble import reasons, status_of
from fitwright.web.under_way import found_later
from fitwright.web.visit import Visit, telling


async def way_in(visit: Visit) -> Response:
    """The page; the answer follows."""
    work = visit.work()
    return visit.html("way_in/way_in.html", work=work, job=work.key, **_route(work))


async def answer(visit: Visit) -> Response:
    """The answer when it is found, till then how far it is; without scripts, at one step of one leg."""
    at = (_number(visit, "leg"), _number(visit, "step"))
    return await found_later(visit, way_told, "way_in/answer.html", at=at)


async def frame(visit: Visit) -> Response:
    """One step as a picture."""
    work = visit.work()
    tag = f'"{work.revision}-{visit.part("leg")}-{visit.part("step")}"'
    headers = {"etag": tag, "cache-control": "no-cache", "content-security-policy": PICTURE_POLICY}
    if visit.request.headers.get("if-none-match") == tag:
        return Response(status_code=304, headers=headers)
    found: WayTold | None = await visit.workbench.desk.aside(work, way_told).result
    leg, step = int(visit.part("leg")), int(visit.part("step"))
    if found is None or leg >= len(found.legs) or step >= len(found.legs[leg].svgs):
        raise NotThere("there is no such step on the way in")
    return Response(found.legs[leg].svgs[step], media_type="image/svg+xml", headers=headers)


async def add(visit: Visit) -> Response:
    """Add an obstacle."""
    kind, name = visit.field("kind"), visit.field("name")
    return await _edited(visit, lambda text: with_new(text, kind, name, visit.form))


async def change_one(visit: Visit) -> Response:
    """Change an obstacle."""
    number = _which(visit)
    return await _edited(visit, lambda text: with_changed(text, number, visit.form))


async def move(visit: Visit) -> Response:
    """Move an obstacle up."""
    number = _which(visit)
    return await _edited(visit, lambda text: moved_up(text, number))


async def remove(visit: Visit) -> Response:
    """Take an obstacle out."""
    number = _which(visit)
    return await _edited(visit, lambda text: without_one(text, number))


def _which(visit: Visit) -> int:
    said = visit.field("number")
    if not said.isdecimal() or len(said) > 3:
        raise NotTaken("say which obstacle by its number")
    return int(said)


def _number(visit: Visit, name: str) -> int:
    said = visit.request.query_params.get(name, "")
    return int(said) if said.isdecimal() and len(said) < 4 else -1


async def _edited(visit: Visit, edit: Callable[[str], str]) -> Response:
    """Keep an edited text and show the route again; or say why not, with what was typed left in the form."""
    work = visit.work()
    try:
        text = await asyncio.to_thread(edit, work.state.text)
        revision = visit.field("revision").partition("-")[0]
        now = visit.kept(await asyncio.to_thread(replace_text, visit.job, revision, text))
    except (FitwrightError, NotTaken, NotThere, Stale) as wrong:
        return _refused(visit, work, wrong)
    if not visit.piecewise:
        return visit.on_to(f"{visit.to}/way-in")
    return telling(visit.html("way_in/route.html", work=now, job=now.key, **_route(now)), now.revision)


def _refused(visit: Visit, work: Work, wrong: Exception) -> Response:
    told = reasons(wrong) if not isinstance(wrong, Stale) else [OVERTAKEN]
    values = _route(work, typed=dict(visit.form), wrong=told)
    template = "way_in/route.html" if visit.piecewise else "way_in/way_in.html"
    return visit.html(template, status_of(wrong), work=work, job=work.key, **values)


OVERTAKEN = "the job was changed meanwhile, on another device or in the text: look at it again, then change it"


def _route(work: Work, typed: dict[str, str] | None = None, wrong: list[str] | None = None) -> dict[str, Any]:
    try:
        found = entries(work.state.text)
    except JobFileError as error:
        found, wrong = (), wrong or reasons(error)
    typed = typed or {}
    return {"entries": found, "kinds": {kind: blank(kind) for kind in LABELS}, "typed": typed, "not_saved": wrong or []}
