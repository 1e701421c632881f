"""What the pages of earlier versions answer."""

from __future__ import annotations

import asyncio
import difflib
from collections.abc import Sequence
from urllib.parse import quote

from starlette.responses import Response

from fitwright.web.folder import JobFolder
from fitwright.web.keeping import Version, replace_text, version_text, versions
from fitwright.web.visit import Visit

LISTED = 200
COMPARED = 30
"""Versions that are read for the list."""
LONGEST = 120


async def earlier(visit: Visit) -> Response:
    """The list, newest first."""
    work = visit.work()
    found = await asyncio.to_thread(versions, visit.job)
    told = await asyncio.to_thread(_with_changes, visit.job, found[:LISTED], work.state.text)
    return visit.html("versions/versions.html", work=work, job=work.key, versions=told, more=len(found) - LISTED)


def _with_changes(job: JobFolder, listed: Sequence[Version], text: str) -> list[tuple[Version, str]]:
    """Each with what replaced it, in short; of those further back only the time."""
    told = []
    for one in listed[:COMPARED]:
        before = version_text(job, one.name)
        told.append((one, in_short(before, text)))
        text = before
    return told + [(one, "") for one in listed[COMPARED:]]


def in_short(before: str, after: str) -> str:
    """What a change did to the text: one line as it was and is, or how many lines.

    >>> in_short("dims:\\n  width: 30\\n", "dims:\\n  width: 31\\n")
    'width: 30 → 31'
    """
    lines = [line for line in difflib.ndiff(before.splitlines(), after.splitlines()) if line[:2] in ("- ", "+ ")]
    gone, come = ([line[2:].strip() for line in lines if line[0] == sign] for sign in "-+")
    if len(gone) == len(come) == 1:
        key, _, was = gone[0].partition(": ")
        same, _, now = come[0].partition(": ")
        return _cut(f"{key}: {_plain(was)} → {_plain(now)}" if key == same else f"{gone[0]} → {come[0]}")
    counted = ((len(come), "come"), (len(gone), "gone"))
    return ", ".join(f"{count} {'line' if count == 1 else 'lines'} {word}" for count, word in counted if count)


def _plain(value: str) -> str:
    """A value without the comment behind it."""
    return value.partition(" #")[0].strip()


def _cut(said: str) -> str:
    return said if len(said) <= LONGEST else f"{said[: LONGEST - 1]}…"


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
