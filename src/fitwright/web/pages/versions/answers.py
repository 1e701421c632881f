"""What the pages of earlier versions answer."""

from __future__ import annotations

import asyncio
import difflib
from urllib.parse import quote

from starlette.responses import Response

from fitwright.web.keeping import replace_text, version_text, versions
from fitwright.web.visit import Visit

LISTED = 200


async def earlier(visit: Visit) -> Response:
    """The list, newest first."""
    work = visit.work()
    found = await asyncio.to_thread(versions, visit.job)
    return visit.html(
        "versions/versions.html", work=work, job=work.key, versions=found[:LISTED], more=len(found) - LISTED
    )


async def version(visit: Visit) -> Response:
    """One version: what going back to it would change."""
    work, name = visit.work(), visit.part("version")
    text = await asyncio.to_thread(version_text, visit.job, name)
    lines = difflib.unified_diff(work.state.text.splitlines(), text.splitlines(), "now", "then", n=2, lineterm="")
    return visit.html("versions/version.html", work=work, job=work.key, name=name, text=text, changes=list(lines)[2:])


async def restore(visit: Visit) -> Response:
    """Take it up again; what it replaces becomes a version itself."""
    text = await asyncio.to_thread(version_text, visit.job, visit.part("version"))
    revision = visit.field("revision").partition("-")[0]
    visit.kept(await asyncio.to_thread(replace_text, visit.job, revision, text))
    return visit.on_to(f"/jobs/{quote(visit.part('job'))}")
