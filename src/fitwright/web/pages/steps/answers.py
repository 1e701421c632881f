"""What the page of the steps answers."""

from __future__ import annotations

import asyncio
import math
from datetime import datetime
from typing import Any
from urllib.parse import quote

from starlette.responses import Response

from fitwright.errors import FitwrightError
from fitwright.job import Job, JobFile, parse_job
from fitwright.web.desk import Work
from fitwright.web.errors import NotTaken
from fitwright.web.keeping import change, state_of
from fitwright.web.pages.steps.plan import Plan, Plans, key_of, step_plan
from fitwright.web.pages.steps.telling import followed
from fitwright.web.pages.steps.writing import (
    Change,
    started,
    stopped,
    ticked,
    unticked,
    with_hours,
    write_progress,
    write_reading,
)
from fitwright.web.trouble import reasons, status_of
from fitwright.web.under_way import under_way
from fitwright.web.visit import Visit, telling

PLANS = Plans()
LONGEST_STEP = 200
MOST_HOURS = 10_000.0


async def steps(visit: Visit) -> Response:
    """The page; where the plan is not known yet the cards follow, or come with it for a browser without scripts."""
    work = visit.work()
    values: dict[str, Any] = {"followed": None, "reasons": []}
    if work.assessment is not None and ("whole" in visit.request.query_params or PLANS.get(_key(work)) is not None):
        values = await _followed(visit, work)
    return visit.html("steps/steps.html", work=work, job=work.key, **values)


async def cards(visit: Visit) -> Response:
    """The cards when the plan is known, till then how far it is."""
    work = visit.work()
    if work.assessment is not None and PLANS.get(_key(work)) is None:
        waiting = await under_way(visit, work, step_plan)
        if waiting is not None:
            return waiting
    return visit.html("steps/cards.html", work=work, job=work.key, **await _followed(visit, work))


async def done(visit: Visit) -> Response:
    """Tick a step off, its timer stopped; or take the tick back."""
    now = _now()
    return await _written(visit, ticked(now) if visit.field("done") == "yes" else unticked)


async def timer(visit: Visit) -> Response:
    """Start or stop a timer; in a shop of one, starting one stops the others."""
    now, step, run = _now(), visit.field("step"), visit.field("run") == "yes"
    alone = visit.work().right.shop.working.people == 1
    others = stopped(now) if run and alone else None
    return await _written(visit, (started if run else stopped)(now), others, step)


async def hours(visit: Visit) -> Response:
    """Set the hours of a step by hand."""
    text = visit.field("hours").strip().replace(",", ".")
    try:
        value = float(text)
    except ValueError:
        value = math.nan
    if not 0 <= value <= MOST_HOURS:
        return await _refused(visit, NotTaken(f"{text[:20]!r} is not a number of hours: write 1.5"))
    return await _written(visit, with_hours(value))


async def reading(visit: Visit) -> Response:
    """Keep a reading in the job file."""
    of, value, step = visit.field("of").strip(), " ".join(visit.field("is").split()), visit.field("step")
    if not value:
        return await _refused(visit, NotTaken(f"{of[:80]}: nothing was written in the field"))
    today = _now().date()
    return await _edited(visit, lambda file, job: write_reading(file, of, value, step[:LONGEST_STEP], today), step)


def _now() -> datetime:
    return datetime.now().astimezone().replace(microsecond=0)


def _key(work: Work) -> str:
    return key_of(work.right.job, work.key, work.right.shop)


async def _written(visit: Visit, one: Change, others: Change | None = None, step: str = "") -> Response:
    """Change what is kept of a step, and of all others where that is asked."""
    step = step or visit.field("step")
    if not step.strip() or len(step) > LONGEST_STEP:
        raise NotTaken(f"{step[:40]!r} is not the name of a step")

    def edit(file: JobFile, job: Job) -> None:
        for kept in job.progress if others is not None else ():
            if kept.step != step and others is not None:
                write_progress(file, job, kept.step, others)
        write_progress(file, job, step, one)

    return await _edited(visit, edit, step)


async def _edited(visit: Visit, edit: Any, step: str) -> Response:
    """Change the file as it now is: a tick is meant whatever else was changed meanwhile."""
    job = visit.job

    def kept() -> Any:
        state = state_of(job)
        told = parse_job(state.text, job.file.name)
        return change(job, state.revision, lambda file: edit(file, told))

    try:
        work = visit.kept(await asyncio.to_thread(kept))
    except FitwrightError as wrong:
        return await _refused(visit, wrong)
    if not visit.piecewise:
        return visit.on_to(f"/jobs/{quote(visit.part('job'))}/steps?whole=1#{_place(work, step)}")
    values = await _followed(visit, work) if PLANS.get(_key(work)) is not None else {"followed": None, "reasons": []}
    return telling(visit.html("steps/cards.html", work=work, job=work.key, **values), work.revision)


def _place(work: Work, step: str) -> str:
    plan = PLANS.get(_key(work))
    number = next((one.number for one in plan.steps if one.key == step), 0) if plan is not None else 0
    return f"step-{number}"


async def _refused(visit: Visit, wrong: FitwrightError) -> Response:
    """The cards as they were, with why nothing was written."""
    work = visit.work()
    values = {**await _followed(visit, work), "reasons": reasons(wrong)}
    template = "steps/cards.html" if visit.piecewise else "steps/steps.html"
    return visit.html(template, status_of(wrong), work=work, job=work.key, **values)


async def _followed(visit: Visit, work: Work) -> dict[str, Any]:
    try:
        plan = PLANS.get(_key(work)) or PLANS.keep(_key(work), await _planned(visit, work))
        return {"followed": followed(work.right.job, plan, _now()), "reasons": []}
    except FitwrightError as wrong:
        return {"followed": None, "reasons": reasons(wrong)}


async def _planned(visit: Visit, work: Work) -> Plan:
    found: Plan = await asyncio.shield(visit.workbench.desk.aside(work, step_plan).result)
    return found
