"""What the page of readings answers."""

from __future__ import annotations

import asyncio
from collections.abc import Callable
from datetime import datetime
from typing import Any

from starlette.responses import Response

from fitwright.errors import FitwrightError
from fitwright.job.readings import likeliest, parse_of
from fitwright.web.desk import Work
from fitwright.web.errors import NotTaken, NotThere
from fitwright.web.guard.headers import PICTURE_POLICY
from fitwright.web.keeping import replace_text, state_of
from fitwright.web.pages.readings.showing import Shown, changes_told, shown
from fitwright.web.pages.readings.writing import with_reading, without_reading
from fitwright.web.trouble import reasons, status_of
from fitwright.web.under_way import found_later
from fitwright.web.visit import Visit, telling

LONGEST = 200
NOTHING = {"of": "", "is": "", "within": "", "note": ""}


async def readings(visit: Visit) -> Response:
    """The page; what follows comes after it, or with it for a browser without scripts."""
    work = visit.work()
    values = await _values(visit, work) if "whole" in visit.request.query_params else {"shown": None, "wrong": []}
    return visit.html("readings/readings.html", work=work, job=work.key, said=[], typed=NOTHING, **values)


async def told(visit: Visit) -> Response:
    """Fields and what follows."""
    work = visit.work()
    return visit.html(
        "readings/told.html", work=work, job=work.key, said=[], typed=NOTHING, **await _values(visit, work)
    )


async def changed(visit: Visit) -> Response:
    """The numbers that change when they are worked out, till then how far it is."""
    return await found_later(visit, changes_told, "readings/changed.html")


async def picture(visit: Visit) -> Response:
    """The piece with its corrections."""
    found = await _shown(visit, visit.work())
    if not found.picture:
        raise NotThere("nothing is to be corrected that could be drawn")
    headers = {"cache-control": "no-cache", "content-security-policy": PICTURE_POLICY}
    return Response(found.picture, media_type="image/svg+xml", headers=headers)


async def add(visit: Visit) -> Response:
    """Keep a reading at the end of the list: the last of the same thing counts."""
    said = {name: " ".join(visit.form.get(name, "").split())[:LONGEST] for name in ("of", "is", "within", "note")}
    today = datetime.now().astimezone().date()
    return await _edited(visit, lambda text: with_reading(text, _checked(said), today), said)


async def remove(visit: Visit) -> Response:
    """Take a reading out of the list, where it is still the one that was shown."""
    number, of = visit.field("number"), visit.field("of")
    return await _edited(visit, lambda text: without_reading(text, number, of), {})


def _checked(said: dict[str, str]) -> dict[str, str]:
    """What was typed, known to be something that is read. Raises NotTaken."""
    of = parse_of(said["of"])
    if of is None:
        near = likeliest(said["of"])
        hint = f"; did you mean something like “{near}”?" if near else ""
        raise NotTaken(f"“{said['of'][:60]}” is not something that is read{hint}")
    if not said["is"]:
        raise NotTaken(f"{of}: nothing was written in the field")
    return {**said, "of": str(of)}


async def _edited(visit: Visit, edit: Callable[[str], str], typed: dict[str, str]) -> Response:
    """Change the file as it now is: a reading is meant whatever else was changed meanwhile."""
    job = visit.job

    def kept() -> Any:
        state = state_of(job)
        return replace_text(job, state.revision, edit(state.text))

    try:
        work = visit.kept(await asyncio.to_thread(kept))
    except FitwrightError as wrong:
        return await _refused(visit, wrong, typed)
    if not visit.piecewise:
        return visit.on_to(f"{visit.to}/readings?whole=1")
    page = visit.html(
        "readings/told.html", work=work, job=work.key, said=[], typed=NOTHING, **await _values(visit, work)
    )
    return telling(page, work.revision)


async def _refused(visit: Visit, wrong: FitwrightError, typed: dict[str, str]) -> Response:
    """The page as it was, with what was typed and why it was not kept."""
    work = visit.work()
    template = "readings/told.html" if visit.piecewise else "readings/readings.html"
    values = {**await _values(visit, work), "said": reasons(wrong), "typed": {**NOTHING, **typed}}
    return visit.html(template, status_of(wrong), work=work, job=work.key, **values)


async def _shown(visit: Visit, work: Work) -> Shown:
    return await visit.workbench.desk.result(work, "readings", shown)


async def _values(visit: Visit, work: Work) -> dict[str, Any]:
    try:
        return {"shown": await _shown(visit, work), "wrong": []}
    except FitwrightError as wrong:
        return {"shown": None, "wrong": reasons(wrong)}
