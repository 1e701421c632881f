"""What the page of alternatives answers."""

from __future__ import annotations

import asyncio
from collections.abc import Sequence
from typing import Any
from urllib.parse import quote

from starlette.responses import Response

from fitwright.job import JobFile
from fitwright.pricing.exploring.front import best_few
from fitwright.pricing.exploring.trying import Point, Tried
from fitwright.sheets.exploring import Frame, explored_svg
from fitwright.sheets.quote.client import money
from fitwright.sheets.quote.weighing import against, gives, priced
from fitwright.web.aside import Superseded
from fitwright.web.desk import Work
from fitwright.web.keeping import change, state_of
from fitwright.web.pages.alternatives.trying import go_on, trying_of
from fitwright.web.under_way import BETWEEN, LONG, STATE, part_of_page
from fitwright.web.visit import Visit

WIDE, NARROW = (900.0, 560.0), (380.0, 520.0)
"""The picture for a desk and for a telephone."""
LOOK_EVERY = 0.1


async def alternatives(visit: Visit) -> Response:
    """The page; what they come to follows."""
    work = visit.work()
    return visit.html("alternatives/alternatives.html", job=work.key, work=work)


async def tried(visit: Visit) -> Response:
    """Those that are worked out, as a picture and a table; asked again until all are."""
    work = visit.work()
    if visit.request.query_params.get(STATE, work.revision) != work.revision:
        raise Superseded
    trying = go_on(work)
    await _a_while(len(trying.done), trying, BETWEEN if visit.piecewise else LONG, visit.piecewise)
    rows = trying.rows
    values = {**_shown(visit, work, rows), "trying": trying, "again": _again(visit, work)}
    return part_of_page(visit, "alternatives/tried.html", job=work.key, work=work, **values)


async def _a_while(done: int, trying: Any, seconds: float, piecewise: bool) -> None:
    """Until one more is done, or all for a browser without scripts, or the time is over."""
    for _ in range(round(seconds / LOOK_EVERY)):
        if trying.finished or (piecewise and len(trying.done) > done):
            return
        await asyncio.sleep(LOOK_EVERY)


async def one(visit: Visit) -> Response:
    """One alternative, with a form to make a job of it."""
    work = visit.work()
    trying = trying_of(work)
    point = trying.point(int(visit.part("number")))
    values: dict[str, Any] = {"point": point, "row": trying.done.get(point.number), "name": _name(work, point)}
    style = work.right.job.style
    return visit.html("alternatives/one.html", job=work.key, work=work, money=money, gives=gives, style=style, **values)


async def begin(visit: Visit) -> Response:
    """A copy of the job, made otherwise."""
    point = trying_of(visit.work()).point(int(visit.part("number")))
    copy = await asyncio.to_thread(visit.folder.duplicate, visit.job, visit.field("name"))

    def edit(file: JobFile) -> None:
        for setting in point.settings:
            file.set(setting.path, setting.value)

    await asyncio.to_thread(lambda: change(copy, state_of(copy).revision, edit))
    return visit.on_to(f"/jobs/{quote(copy.key)}")


def _name(work: Work, point: Point) -> str:
    """A name for the copy that a folder can have."""
    told = "".join(letter if letter.isalnum() or letter in " .-" else " " for letter in point.words)
    return " ".join(f"{work.key} - {told}".split())[:80].rstrip(" .")


def _shown(visit: Visit, work: Work, rows: Sequence[Tried]) -> dict[str, Any]:
    style, currency = work.right.job.style, work.right.shop.currency
    titles = (f"{work.right.job.name}: price, stiffness, weight", "Price, stiffness, weight")
    frames = [
        Frame(*size, all_numbers=True, link=lambda number: f"{visit.to}/alternatives/{number}", title=title)
        for size, title in zip((WIDE, NARROW), titles, strict=True)
    ]
    base = next((row.figures.net for row in rows if row.figures is not None), None)
    return {
        "rows": rows,
        "pictures": [explored_svg(rows, style, currency, frame) for frame in frames] if rows else [],
        "best": best_few(rows),
        "base": base,
        "style": style,
        "currency": currency,
        "priced": priced,
        "against": against,
        "gives": gives,
    }


def _again(visit: Visit, work: Work) -> str:
    return f"{visit.to}/alternatives/tried?{STATE}={work.revision}"
