"""A change is told to every page but the one that it was made on."""

from __future__ import annotations

import asyncio
from collections.abc import AsyncIterator
from pathlib import Path

from fitwright.web.desk import Desk
from fitwright.web.folder import JobsFolder
from fitwright.web.keeping import change, state_of
from fitwright.web.news import News
from tests.unit.web.serving import PATIENCE_S, in_a_loop, some_jobs


async def next_event(stream: AsyncIterator[bytes]) -> bytes:
    """The next event that says something."""
    while True:
        said = await asyncio.wait_for(anext(stream), PATIENCE_S)
        if said.startswith(b"event"):
            return said


def test_others_are_told_and_the_maker_is_not(tmp_path: Path) -> None:
    job = JobsFolder(some_jobs(tmp_path)).job("drying-rack")
    desk = Desk()
    news = News(desk)

    async def run() -> None:
        known = state_of(job).revision
        other, mine = news.of(job, known, "other"), news.of(job, known, "mine")
        assert await anext(other) == await anext(mine) == b"retry: 2000\n\n"
        waiting, quiet = asyncio.ensure_future(next_event(other)), asyncio.ensure_future(next_event(mine))
        await asyncio.sleep(0.1)
        kept = change(job, known, lambda file: file.set_dim("width", "30"))
        work = desk.accept(job, kept)
        news.tell(job, work.revision, "mine")
        assert work.revision.encode() in await waiting
        await asyncio.sleep(1.5)
        assert not quiet.done()
        quiet.cancel()

    in_a_loop(run())
    desk.close()


def test_a_change_made_to_the_file_itself_is_told_and_so_is_an_old_revision(tmp_path: Path) -> None:
    job = JobsFolder(some_jobs(tmp_path)).job("drying-rack")
    desk = Desk()
    news = News(desk)

    async def run() -> None:
        stream = news.of(job, "older", "page")
        first = await next_event(stream)
        assert state_of(job).revision.encode() in first
        job.file.write_text(job.file.read_text().replace("31 1/2", "31"))
        assert state_of(job).revision.encode() in await next_event(stream)

    in_a_loop(run())
    desk.close()


def test_listeners_are_let_go_when_the_server_ends(tmp_path: Path) -> None:
    job = JobsFolder(some_jobs(tmp_path)).job("drying-rack")
    desk = Desk()
    news = News(desk)

    async def run() -> None:
        stream = news.of(job, state_of(job).revision, "page")
        await anext(stream)
        ending = asyncio.ensure_future(anext(stream))
        await asyncio.sleep(0.05)
        news.close()
        try:
            await asyncio.wait_for(ending, PATIENCE_S)
        except StopAsyncIteration:
            return
        raise AssertionError("the stream went on")

    in_a_loop(run())
    desk.close()
