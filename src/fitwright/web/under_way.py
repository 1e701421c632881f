"""What takes seconds, on a page: how far it is, asked for again by itself, and at last what was found."""

from __future__ import annotations

import asyncio
from typing import Any
from urllib.parse import urlencode

from starlette.responses import Response

from fitwright.errors import FitwrightError
from fitwright.web.aside import Aside, Superseded, Task
from fitwright.web.desk import Work
from fitwright.web.trouble import reasons
from fitwright.web.visit import Visit

BETWEEN = 0.8
"""How long an answer that shows progress is held back, in case it is done [s]."""
LONG = 120.0
"""How long a browser that takes no scripts waits for the whole, as nothing can follow there [s]."""
STATE = "of"
"""The field of an address that says of which state of the job more is asked for."""


async def found_later(visit: Visit, task: Task, template: str, **values: Any) -> Response:
    """A part of a page with what a task finds of the job, computed aside; till then how far it is.

    template: gets `found`, `work`, `job` and values.
    """
    work = visit.work()
    waiting = await under_way(visit, work, task)
    if waiting is not None:
        return waiting
    try:
        found = await visit.workbench.desk.aside(work, task).result
    except FitwrightError as wrong:
        return part_of_page(visit, "later_wrong.html", work=work, job=work.key, reasons=reasons(wrong))
    return part_of_page(visit, template, work=work, job=work.key, found=found, **values)


def part_of_page(visit: Visit, template: str, **values: Any) -> Response:
    """A part of one of a job's pages; for a browser without scripts a page of its own, under the tab it belongs to."""
    return visit.html(template if visit.piecewise else "later_whole.html", part=template, **values)


async def under_way(visit: Visit, work: Work, task: Task) -> Response | None:
    """How far a task is, or None when it is done, or failed. Raises Superseded when a past state is asked about."""
    if visit.request.query_params.get(STATE, work.revision) != work.revision:
        raise Superseded
    aside = await waited_for(visit, work, task, BETWEEN if visit.piecewise else LONG)
    if aside.result.done():
        return None
    again = _again(visit, work)
    return part_of_page(visit, "progress.html", job=work.key, step=aside.step, share=aside.share, again=again)


async def waited_for(visit: Visit, work: Work, task: Task, patience: float = BETWEEN) -> Aside:
    """A task, begun if need be and waited for a little. Raises what it raised."""
    aside = visit.workbench.desk.aside(work, task)
    await asyncio.wait([aside.result], timeout=patience)
    return aside


def _again(visit: Visit, work: Work) -> str:
    """The same address, for this state of the job only."""
    fields = {**visit.request.query_params, STATE: work.revision}
    return f"{visit.request.url.path}?{urlencode(fields)}"
