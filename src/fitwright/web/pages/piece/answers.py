"""What the piece's page answers."""

from __future__ import annotations

import asyncio
import re
from contextlib import suppress
from typing import Any
from urllib.parse import quote

from starlette.responses import Response, StreamingResponse

from fitwright.errors import FitwrightError
from fitwright.job import JobFile, JobFileError
from fitwright.job.arithmetic import ArithmeticFault, names_in, read
from fitwright.web.dependents import users
from fitwright.web.desk import Work
from fitwright.web.errors import Clash, NotTaken, Stale
from fitwright.web.keeping import change
from fitwright.web.longer import longer_findings
from fitwright.web.pages.piece.findings_told import findings_told
from fitwright.web.pages.piece.rows import DimRow, dim_rows
from fitwright.web.pages.piece.stepping import stepped
from fitwright.web.parts_told import PieceTold, piece_told
from fitwright.web.trouble import reasons, status_of
from fitwright.web.under_way import under_way
from fitwright.web.visit import Visit, telling
from fitwright.web.warming import WARM

PATIENCE = 0.3
"""How long a whole page waits for what takes computing before it is sent without it [s]."""
LONG = 60.0
"""The same for a browser that takes no scripts, to which nothing can follow [s]."""

DIM = re.compile(r"[A-Za-z_]\w{0,63}")


async def piece(visit: Visit) -> Response:
    """The whole page; what is not there at once follows, or is waited for where a browser without scripts asks."""
    work = await asyncio.to_thread(visit.work)
    patience = LONG if "whole" in visit.request.query_params else PATIENCE if WARM.is_set() else 0.0
    values: dict[str, Any] = {
        "work": work,
        "job": work.key,
        "rows": _rows(work),
        "told": None,
        "parts": None,
        "reasons": [],
    }
    if work.wrong is not None:
        return visit.html("piece/piece.html", 200, **{**values, "reasons": reasons(work.wrong)})
    with suppress(TimeoutError):
        values.update(await asyncio.wait_for(_all_told(visit, work), patience))
    return visit.html("piece/piece.html", 200, **values)


async def _all_told(visit: Visit, work: Work) -> dict[str, Any]:
    """The piece in words and its findings, or why there are none."""
    try:
        return {"parts": await _in_words(visit, work), **await _found(visit, work)}
    except FitwrightError as wrong:
        return {"reasons": reasons(wrong)}


async def dims(visit: Visit) -> Response:
    """The list of dims."""
    work = visit.work()
    return visit.html("piece/dims.html", work=work, job=work.key, rows=_rows(work))


async def set_dim(visit: Visit) -> Response:
    """Accept a dim: into the file at once, or say why not, with what was typed kept."""
    name = visit.field("name")
    try:
        return await _accepted(visit, name)
    except (Stale, JobFileError, NotTaken) as wrong:
        return _not_saved(visit, name, wrong)


async def findings(visit: Visit) -> Response:
    """The list of findings, as soon as there is one."""
    work = visit.work()
    values: dict[str, Any] = {"work": work, "job": work.key, "told": None, "reasons": []}
    try:
        values.update(await _found(visit, work))
    except FitwrightError as wrong:
        values["reasons"] = reasons(wrong)
    return visit.html("piece/findings.html", **values)


async def longer(visit: Visit) -> Response:
    """Every finding, those that take longer too; till then how far they are."""
    work = visit.work()
    waiting = await under_way(visit, work, longer_findings)
    if waiting is not None:
        return waiting
    found = await visit.workbench.desk.aside(work, longer_findings).result
    values: dict[str, Any] = {"work": work, "job": work.key, "reasons": []}
    values["told"] = findings_told(found, work.right.job.style)
    response = visit.html("piece/findings.html", **values)
    response.headers["HX-Retarget"] = "#findings-list"
    return response


async def in_words(visit: Visit) -> Response:
    """What the picture shows, in words."""
    work = visit.work()
    try:
        parts = await _in_words(visit, work)
    except FitwrightError as wrong:
        return visit.html("piece/in_words.html", job=work.key, parts=None, reasons=reasons(wrong))
    return visit.html("piece/in_words.html", job=work.key, parts=parts, reasons=[])


async def events(visit: Visit) -> Response:
    """Server-sent events, for as long as the page stays."""
    job = visit.job
    known, page = (visit.request.query_params.get(name, "") for name in ("revision", "page"))
    return StreamingResponse(visit.workbench.news.of(job, known, page), media_type="text/event-stream")


async def _in_words(visit: Visit, work: Work) -> PieceTold:
    """After the shape, which is what is waited for."""
    await visit.workbench.desk.piece(work)
    return await visit.workbench.desk.result(work, "in words", piece_told)


async def _found(visit: Visit, work: Work) -> dict[str, Any]:
    """All findings where they are known, else the quick ones with word that more follow."""
    known = work.found(longer_findings)
    if known is not None:
        return {"told": findings_told(known, work.right.job.style), "longer": False}
    found = await visit.workbench.desk.findings(work)
    return {"told": findings_told(found, work.right.job.style), "longer": True}


def _rows(work: Work) -> list[DimRow]:
    return [] if work.assessment is None else dim_rows(work.assessment.job, users(work.state.text))


async def _accepted(visit: Visit, name: str) -> Response:
    job, work = visit.job, visit.work()
    dim = work.right.job.dims.get(name)
    if not DIM.fullmatch(name) or dim is None:
        raise NotTaken(f"{name[:60]!r} is not a dim of this job")
    text = " ".join(visit.field("text").split())
    if visit.form.get("step") in ("up", "down"):
        text = stepped(text, dim, visit.form["step"] == "up", work.right.job.style)
    was, revision = visit.form.get("was") or dim.text, visit.field("revision")
    stale = revision.partition("-")[0] != work.state.revision

    def edit(file: JobFile) -> Clash | None:
        if stale or was != dim.text:
            return Clash(name, dim.text, text)
        file.set_dim(name, text)
        return None

    now = visit.kept(await asyncio.to_thread(change, job, work.state.revision, edit))
    if not visit.piecewise:
        return visit.on_to(f"/jobs/{quote(visit.part('job'))}?whole=1#dim-{name}")
    response = visit.html("piece/accepted.html", work=now, rows=dim_rows(now.right.job, {}))
    more = {"structure": "changed"} if _worked_out(dim.text) or _worked_out(text) else {}
    return telling(response, now.revision, name=name, text=text, **more)


def _worked_out(text: str) -> bool:
    """Whether a dim names others, so that what moves with what may have changed."""
    found = read(text)
    return isinstance(found, ArithmeticFault) or next(names_in(found), None) is not None


def _not_saved(visit: Visit, name: str, wrong: FitwrightError) -> Response:
    work = visit.work()
    clash = wrong.clash if isinstance(wrong, Stale) else None
    values = {"name": name, "reasons": reasons(wrong), "clash": clash, "work": work, "job": work.key}
    template = "piece/not_saved.html" if visit.piecewise else "piece/not_saved_page.html"
    return visit.html(template, status_of(wrong), **values)
