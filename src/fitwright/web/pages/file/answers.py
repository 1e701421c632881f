"""What the page of the job file answers, its text above all."""

from __future__ import annotations

import asyncio
import difflib
from urllib.parse import quote

from starlette.responses import JSONResponse, PlainTextResponse, Response

from fitwright.errors import FitwrightError
from fitwright.job import JobFileError, Mistake, parse_job
from fitwright.web.desk import Work
from fitwright.web.errors import Stale
from fitwright.web.keeping import replace_text
from fitwright.web.pages.file.part_answers import panel_values
from fitwright.web.pages.file.words import completion_words
from fitwright.web.trouble import reasons, status_of
from fitwright.web.under_way import part_of_page
from fitwright.web.visit import Visit, telling

ABOUT = 3


async def file(visit: Visit) -> Response:
    """The page, at a line or with a part's form where that is asked for."""
    work = visit.work()
    return _page(visit, work, work.state.text, mistakes=_mistakes(work.wrong))


async def picture(visit: Visit) -> Response:
    """The piece as it now is beside its parts, or why it cannot be built; what the file lacks stands at its text."""
    work = visit.work()
    wrong: list[str] = []
    if work.assessment is not None:
        try:
            await visit.workbench.desk.piece(work)
        except FitwrightError as error:
            wrong = reasons(error)
    return part_of_page(visit, "file/picture.html", work=work, job=work.key, wrong=wrong)


async def text(visit: Visit) -> Response:
    """The text alone."""
    work = visit.work()
    return PlainTextResponse(work.state.text, headers={"x-revision": work.revision})


async def save(visit: Visit) -> Response:
    """Save the text, or say what is wrong and where, with the text kept."""
    written = visit.field("text").replace("\r\n", "\n")
    revision = visit.field("revision").partition("-")[0]
    try:
        now = visit.kept(await asyncio.to_thread(replace_text, visit.job, revision, written))
    except (JobFileError, Stale) as wrong:
        return _not_saved(visit, written, wrong)
    if not visit.piecewise:
        return visit.on_to(f"/jobs/{quote(visit.part('job'))}/file")
    return telling(
        visit.html("file/said.html", work=now, job=now.key, mistakes=(), changes=(), saved=True), now.revision
    )


async def check(visit: Visit) -> Response:
    """The mistakes of a text, each with its line and column from 1; line 0 is the whole file."""
    written = visit.field("text").replace("\r\n", "\n")
    mistakes = await asyncio.to_thread(_check, written)
    return JSONResponse([{"line": one.line, "column": one.column, "told": _told(one)} for one in mistakes])


async def words(visit: Visit) -> Response:
    """Words to complete with."""
    work = visit.work()
    return JSONResponse(completion_words(work.assessment.job if work.assessment else None))


def _check(written: str) -> tuple[Mistake, ...]:
    try:
        parse_job(written)
    except JobFileError as wrong:
        return wrong.mistakes
    return ()


def _page(
    visit: Visit,
    work: Work,
    written: str,
    *,
    mistakes: tuple[Mistake, ...],
    changes: tuple[str, ...] = (),
    status: int = 200,
) -> Response:
    query = visit.request.query_params
    values = {**panel_values(work, query.get("part", "")), "line": _line(visit, written), "saved": False}
    return visit.html(
        "file/file.html", status, work=work, job=work.key, text=written, mistakes=mistakes, changes=changes, **values
    )  # fmt: skip


def _line(visit: Visit, written: str) -> int:
    """The line that was asked for, by its number or by the key that begins it; 0 for none."""
    line, find = visit.request.query_params.get("line", ""), visit.request.query_params.get("find", "")
    if line.isascii() and line.isdigit():
        return min(int(line[:7]), written.count("\n") + 1)
    return next((n for n, said in enumerate(written.splitlines(), 1) if find and said.startswith(f"{find}:")), 0)


def _not_saved(visit: Visit, written: str, wrong: JobFileError | Stale) -> Response:
    work, status = visit.work(), status_of(wrong)
    changes: tuple[str, ...] = ()
    if isinstance(wrong, Stale):
        changes = tuple(_differences(work.state.text, written)) or ("There is no difference.",)
    mistakes = _mistakes(wrong)
    if not visit.piecewise:
        return _page(visit, work, written, mistakes=mistakes, changes=changes, status=status)
    return visit.html(
        "file/said.html", status, work=work, job=work.key, mistakes=mistakes, changes=changes, saved=False
    )  # fmt: skip


def _mistakes(wrong: Exception | None) -> tuple[Mistake, ...]:
    if wrong is None or isinstance(wrong, Stale):
        return ()
    return wrong.mistakes if isinstance(wrong, JobFileError) else (Mistake(0, 0, "", str(wrong)),)


def _differences(theirs: str, mine: str) -> list[str]:
    lines = difflib.unified_diff(
        theirs.splitlines(), mine.splitlines(), "as it now is", "as you wrote it", n=ABOUT, lineterm=""
    )
    return list(lines)[:400]


def _told(mistake: Mistake) -> str:
    return str(Mistake(0, 0, mistake.where, mistake.what, mistake.accepted, mistake.nearest))
