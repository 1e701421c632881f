"""What the list of jobs answers."""

from __future__ import annotations

import asyncio
from collections import Counter
from dataclasses import dataclass, replace
from datetime import date
from functools import lru_cache
from urllib.parse import quote

from starlette.responses import Response

from fitwright.errors import FitwrightError
from fitwright.findings import Verdict
from fitwright.job import JobFile, parse_job, starters
from fitwright.job.owning import of_ones_own
from fitwright.web.errors import NotTaken
from fitwright.web.folder import JobFolder, JobsFolder
from fitwright.web.keeping import state_of
from fitwright.web.pages.jobs.starting import LONGEST, starter_text, typed_dims, with_dims
from fitwright.web.trouble import reasons
from fitwright.web.visit import Visit


async def jobs(visit: Visit) -> Response:
    """The list; what takes computing is left to each card."""
    return visit.html(
        "jobs/jobs.html", jobs=await asyncio.to_thread(_heads, visit.folder), starters=starters(),
        archived=len(visit.folder.archived()),
    )  # fmt: skip


async def card(visit: Visit) -> Response:
    """A job's findings in short."""
    work = visit.work()
    try:
        found = await visit.workbench.desk.findings(work)
    except FitwrightError as wrong:
        return visit.html("jobs/state.html", counts=(), reasons=reasons(wrong)[:1])
    counted = Counter(one.verdict for one in found)
    return visit.html("jobs/state.html", counts=[(verdict, counted[verdict]) for verdict in Verdict], reasons=[])


async def begin(visit: Visit) -> Response:
    """A new job."""
    starter = visit.field("starter")
    if starter not in {one.name for one in starters()}:
        raise NotTaken(f"{starter[:60]!r} is not a starter")
    typed, whole = typed_dims(starter, visit.form), visit.form.get("example") == "yes"
    client, due = (" ".join(visit.form.get(name, "").split())[:LONGEST] for name in ("client", "due"))

    def made(text: str) -> str:
        text = with_dims(text, typed)
        return text if whole else of_ones_own(text, client, due)

    made(starter_text(starter))  # before there is a folder for it
    job = await asyncio.to_thread(visit.folder.begin, starter, visit.field("name"), own=not whole)
    JobFile(made(state_of(job).text)).save(job.file)
    return visit.on_to(address(job))


async def duplicate(visit: Visit) -> Response:
    """A copy under another name."""
    job = await asyncio.to_thread(visit.folder.duplicate, visit.job, visit.field("name"))
    return visit.on_to(address(job))


async def archive(visit: Visit) -> Response:
    """Put a job away."""
    await asyncio.to_thread(visit.folder.archive, visit.job)
    return visit.on_to("/")


async def archived(visit: Visit) -> Response:
    """The list of jobs put away."""
    return visit.html("jobs/archived.html", jobs=visit.folder.archived())


async def bring_back(visit: Visit) -> Response:
    """Take a job up again."""
    job = await asyncio.to_thread(visit.folder.bring_back, visit.part("job"))
    return visit.on_to(address(job))


def address(job: JobFolder) -> str:
    """Where a job's page is."""
    return f"/jobs/{quote(job.key)}"


@dataclass(frozen=True)
class Head:
    """What the list says of a job; wrong: why its file cannot be used, or empty."""

    key: str
    name: str
    client: str = ""
    due: date | None = None
    wrong: str = ""


def _heads(folder: JobsFolder) -> list[Head]:
    return [_head(job) for job in folder.jobs()]


def _head(job: JobFolder) -> Head:
    try:
        return replace(_read_head(state_of(job).text), key=job.key)
    except FitwrightError as wrong:
        return Head(job.key, job.key, wrong=reasons(wrong)[0])


@lru_cache(maxsize=512)
def _read_head(text: str) -> Head:
    job = parse_job(text)
    return Head("", job.name, job.client, job.due)
