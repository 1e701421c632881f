"""News of changes, to every device that has a job open: of those made here, and of those made to the file itself."""

from __future__ import annotations

import asyncio
import json
from collections.abc import AsyncIterator
from contextlib import suppress

from fitwright.errors import FitwrightError
from fitwright.web.desk import Desk
from fitwright.web.folder import JobFolder

LOOKS = 1.0
"""How often the file itself is looked at [s]."""
ALIVE = 15
"""Looks after which something is sent anyway, so that a dead connection is noticed."""
REMEMBERED = 500
"""Changes whose maker is remembered."""


class News:
    """Wakes those who wait for news of a job."""

    def __init__(self, desk: Desk) -> None:
        self._desk = desk
        self._waiting: dict[str, asyncio.Event] = {}
        self._made_by: dict[tuple[str, str], str] = {}
        self._closed = False

    def tell(self, job: JobFolder, revision: str, by: str) -> None:
        """A job has changed; by: the open page that it was changed on, which knows already."""
        self._made_by[str(job.root), revision] = by
        if len(self._made_by) > REMEMBERED:
            self._made_by.pop(next(iter(self._made_by)))
        event = self._waiting.pop(str(job.root), None)
        if event is not None:
            event.set()

    def close(self) -> None:
        """Let every listener go."""
        self._closed = True
        for event in self._waiting.values():
            event.set()
        self._waiting.clear()

    async def of(self, job: JobFolder, known: str, page: str) -> AsyncIterator[bytes]:
        """Server-sent events for one open page, the first at once when it knows an older revision than the newest."""
        looks = 0
        yield b"retry: 2000\n\n"
        while not self._closed:
            try:
                revision = await asyncio.to_thread(lambda: self._desk.work(job).revision)
            except FitwrightError:
                revision = "unreadable"
            if revision != known and self._made_by.get((str(job.root), revision)) == page:
                known = revision
            if revision != known:
                known, looks = revision, 0
                yield f"event: job-changed\ndata: {json.dumps({'revision': revision})}\n\n".encode()
            elif looks == ALIVE:
                looks = 0
                yield b": alive\n\n"
            looks += 1
            await self._next(job)

    async def _next(self, job: JobFolder) -> None:
        event = self._waiting.setdefault(str(job.root), asyncio.Event())
        with suppress(TimeoutError):
            await asyncio.wait_for(event.wait(), LOOKS)
