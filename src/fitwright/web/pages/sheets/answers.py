"""What the sheets' page answers."""

from __future__ import annotations

import asyncio
from typing import Any
from urllib.parse import quote

from starlette.responses import FileResponse, Response

from fitwright.errors import FitwrightError
from fitwright.web.desk import Work
from fitwright.web.errors import NotThere
from fitwright.web.guard.headers import PICTURE_POLICY
from fitwright.web.leaves import Leaf
from fitwright.web.longer import sheets as set_sheets
from fitwright.web.making import packet_file, packet_files
from fitwright.web.trouble import reasons
from fitwright.web.under_way import under_way
from fitwright.web.visit import Visit

SHOWN_IN_BROWSER = (".pdf", ".svg")


async def sheets(visit: Visit) -> Response:
    """The page; the sheets themselves follow, or come with it for a browser without scripts."""
    work = visit.work()
    mark = visit.request.query_params.get("mark", "")[:20]
    whole = "whole" in visit.request.query_params
    values = await _set(visit, work) if whole else {"leaves": None, "reasons": []}
    return visit.html("sheets/sheets.html", work=work, job=work.key, mark=mark, **values, **_making(visit, work))


async def papers(visit: Visit) -> Response:
    """Every sheet when all are set, till then how far it is."""
    work = visit.work()
    if work.assessment is not None:
        waiting = await under_way(visit, work, set_sheets)
        if waiting is not None:
            return waiting
    mark = visit.request.query_params.get("mark", "")[:20]
    return visit.html("sheets/papers.html", work=work, job=work.key, mark=mark, **await _set(visit, work))


async def sheet(visit: Visit) -> Response:
    """One sheet as a picture."""
    work = visit.work()
    number = int(visit.part("number"))
    tag = f'"{work.revision}-{number}"'
    headers = {"etag": tag, "cache-control": "no-cache", "content-security-policy": PICTURE_POLICY}
    if visit.request.headers.get("if-none-match") == tag:
        return Response(status_code=304, headers=headers)
    found = await _leaves(visit, work)
    if not 1 <= number <= len(found):
        raise NotThere(f"there is no sheet {number}: this job has {len(found)}")
    return Response(found[number - 1].svg, media_type="image/svg+xml", headers=headers)


async def make(visit: Visit) -> Response:
    """Begin to make the packet."""
    work = visit.work()
    _ = work.right
    visit.workbench.makings.begin(visit.job, work.revision, visit.form.get("solids") == "yes")
    if visit.piecewise:
        return visit.html("sheets/making.html", work=work, job=work.key, **_making(visit, work))
    return visit.on_to(f"/jobs/{quote(visit.part('job'))}/sheets")


async def making(visit: Visit) -> Response:
    """How far it is, and the files when it is done."""
    work = visit.work()
    return visit.html("sheets/making.html", work=work, job=work.key, **_making(visit, work))


async def file(visit: Visit) -> Response:
    """A file of the packet, shown where a browser can show it and saved otherwise."""
    path = packet_file(visit.job, visit.part("file"))
    where = "inline" if path.suffix in SHOWN_IN_BROWSER else "attachment"
    name = f"{visit.part('job')} {path.name}"
    headers = {"content-security-policy": PICTURE_POLICY} if path.suffix == ".svg" else {}
    return FileResponse(path, filename=name, content_disposition_type=where, headers=headers)


async def _leaves(visit: Visit, work: Work) -> tuple[Leaf, ...]:
    found: tuple[Leaf, ...] = await asyncio.shield(visit.workbench.desk.aside(work, set_sheets).result)
    return found


async def _set(visit: Visit, work: Work) -> dict[str, Any]:
    try:
        return {"leaves": await _leaves(visit, work), "reasons": []}
    except FitwrightError as wrong:
        return {"leaves": (), "reasons": reasons(wrong)}


def _making(visit: Visit, work: Work) -> dict[str, Any]:
    made = visit.workbench.makings.of(visit.job)
    files = [(path.name, path.stat().st_size) for path in packet_files(visit.job)]
    under_way = made is not None and not made.done and not made.wrong
    return {
        "making": made,
        "files": files,
        "under_way": under_way,
        "old": made is not None and made.revision != work.revision,
    }
