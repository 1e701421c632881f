"""What the pictures of the piece answer: the scene, its other shapes, dimension lines, the line picture."""

from __future__ import annotations

from gzip import decompress

from starlette.responses import JSONResponse, Response

from fitwright.web.errors import NotThere
from fitwright.web.guard.headers import PICTURE_POLICY
from fitwright.web.longer import pulled as pull
from fitwright.web.packed import PulledShape, packed_bent, packed_lines, packed_sizes, part_sizes
from fitwright.web.under_way import waited_for
from fitwright.web.visit import Visit

PACKED = "application/octet-stream"
STILL_WORKING = 202


async def mesh(visit: Visit) -> Response:
    """The packed scene; a browser that has it for this revision is told so."""
    work = visit.work()
    tag = f'"{work.revision}"'
    headers = {"etag": tag, "cache-control": "no-cache"}
    if visit.request.headers.get("if-none-match") == tag:
        return Response(status_code=304, headers=headers)
    packed = await visit.workbench.desk.scene(work)
    if "gzip" not in visit.request.headers.get("accept-encoding", ""):
        return Response(decompress(packed), media_type=PACKED, headers=headers)
    headers["content-encoding"] = "gzip"
    return Response(packed, media_type=PACKED, headers=headers)


async def bent(visit: Visit) -> Response:
    """The piece under a load, the one that moves it most unless a case is asked for."""
    work, asked = visit.work(), visit.request.query_params.get("case", "")[:6]
    case = int(asked) if asked.isascii() and asked.isdigit() else None
    drawn = await visit.workbench.desk.result(
        work, f"bent {case}", lambda found: packed_bent(found, work.revision, case)
    )
    return Response(drawn, media_type=PACKED)


async def pulled(visit: Visit) -> Response:
    """The piece as welding pulls it; till then how far it is, in JSON."""
    work = visit.work()
    aside = await waited_for(visit, work, pull)
    if not aside.result.done():
        return JSONResponse({"step": aside.step, "share": aside.share}, STILL_WORKING)
    shape: PulledShape | None = aside.result.result()
    if shape is None:
        raise NotThere("nothing is welded in this piece")
    return Response(packed_lines(shape.lines, shape.said, work.revision), media_type=PACKED)


async def sizes(visit: Visit) -> Response:
    """The dimension lines of one part."""
    work, name = visit.work(), visit.request.query_params.get("name", "")[:120]
    lines = await visit.workbench.desk.result(work, f"sizes {name}", lambda found: part_sizes(found, name))
    return Response(packed_sizes(lines, work.revision), media_type=PACKED)


async def still(visit: Visit) -> Response:
    """The line picture."""
    work = visit.work()
    tag = f'"{work.revision}-still"'
    headers = {"etag": tag, "cache-control": "no-cache", "content-security-policy": PICTURE_POLICY}
    if visit.request.headers.get("if-none-match") == tag:
        return Response(status_code=304, headers=headers)
    drawn = await visit.workbench.desk.still(work)
    return Response(drawn, media_type="image/svg+xml", headers=headers)
