"""What the page of the place answers."""

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
from fitwright.web.pages.place.drawing import InPlace, in_place
from fitwright.web.pages.place.survey import KEYS, blank, survey_of
from fitwright.web.pages.place.writing import with_measures, with_one, with_wishes, without_one
from fitwright.web.trouble import reasons, status_of
from fitwright.web.visit import Visit, telling

VIEWS = ("front", "plan")


async def place(visit: Visit) -> Response:
    """The page; the pictures and the findings follow, or come with it where a browser without scripts asks."""
    work = visit.work()
    whole = "whole" in visit.request.query_params
    found = await _drawn(visit, work) if whole else {"found": None, "wrong": []}
    return visit.html("place/place.html", work=work, job=work.key, **found, **_survey(work))


async def drawn(visit: Visit) -> Response:
    """The pictures and the findings."""
    work = visit.work()
    return visit.html("place/drawn.html", work=work, job=work.key, **await _drawn(visit, work))


async def picture(visit: Visit) -> Response:
    """One picture."""
    name = visit.part("view")
    found = await _found(visit, visit.work())
    if name not in VIEWS or name not in found.pictures:
        raise NotThere("there is no such picture of this place: measure it first")
    headers = {"cache-control": "no-cache", "content-security-policy": PICTURE_POLICY}
    return Response(found.pictures[name], media_type="image/svg+xml", headers=headers)


async def measures(visit: Visit) -> Response:
    """Change the lengths on the diagrams."""
    return await _edited(visit, lambda text: with_measures(text, visit.form))


async def wishes(visit: Visit) -> Response:
    """Change what stands beside the diagrams."""
    return await _edited(visit, lambda text: with_wishes(text, visit.form))


async def add(visit: Visit) -> Response:
    """Add a thing or a door."""
    kind, name = visit.field("kind"), " ".join(visit.field("name").split())
    return await _edited(visit, lambda text: with_one(text, kind, name, visit.form, new=True))


async def change_one(visit: Visit) -> Response:
    """Change a thing or a door."""
    kind, name = visit.field("kind"), visit.field("name")
    return await _edited(visit, lambda text: with_one(text, kind, name, visit.form, new=False))


async def remove(visit: Visit) -> Response:
    """Take out a thing or a door."""
    kind, name = visit.field("kind"), visit.field("name")
    return await _edited(visit, lambda text: without_one(text, kind, name))


async def _edited(visit: Visit, edit: Callable[[str], str]) -> Response:
    """Keep an edited text and show the survey again; or say why not, with what was typed left on the page."""
    work = visit.work()
    try:
        text = await asyncio.to_thread(edit, work.state.text)
        revision = visit.field("revision").partition("-")[0]
        now = visit.kept(await asyncio.to_thread(replace_text, visit.job, revision, text))
    except (JobFileError, NotTaken, NotThere, Stale) as wrong:
        said = _overtaken() if isinstance(wrong, Stale) else wrong
        return _refused(visit, work, said, status_of(wrong))
    if not visit.piecewise:
        return visit.on_to(f"{visit.to}/place")
    return telling(visit.html("place/survey.html", work=now, job=now.key, **_survey(now)), now.revision)


def _refused(visit: Visit, work: Work, wrong: Exception, status: int) -> Response:
    """The survey with the form as it was filled in, and why it was not kept."""
    values = _survey(work, typed=dict(visit.form), wrong=reasons(wrong))
    if visit.piecewise:
        return visit.html("place/survey.html", status, work=work, job=work.key, **values)
    return visit.html("place/place.html", status, work=work, job=work.key, **{"found": None, "wrong": [], **values})


def _survey(work: Work, typed: dict[str, str] | None = None, wrong: list[str] | None = None) -> dict[str, Any]:
    try:
        survey = survey_of(work.state.text)
    except JobFileError as error:
        survey, wrong = None, wrong or reasons(error)
    return {
        "survey": survey, "kinds": {kind: blank(kind) for kind in KEYS}, "typed": typed or {}, "not_saved": wrong or [],
    }  # fmt: skip


def _overtaken() -> NotTaken:
    return NotTaken("the job was changed meanwhile, on another device or in the text: look at it again, then change it")


async def _found(visit: Visit, work: Work) -> InPlace:
    return await visit.workbench.desk.result(work, "in place", in_place)


async def _drawn(visit: Visit, work: Work) -> dict[str, Any]:
    try:
        return {"found": await _found(visit, work), "wrong": []}
    except FitwrightError as wrong:
        return {"found": None, "wrong": reasons(wrong)}
