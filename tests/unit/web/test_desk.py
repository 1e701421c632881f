"""What is computed for a job: once for a state of it, the newest before older ones, the shape before the rest."""

from __future__ import annotations

import asyncio
import time
from collections.abc import Iterator
from pathlib import Path

import pytest

from fitwright.assess import Assessment
from fitwright.errors import FitwrightError
from fitwright.piece import PieceError
from fitwright.web import desk as desk_module
from fitwright.web.aside import Superseded, Tell, follows_longer
from fitwright.web.desk import Desk
from fitwright.web.folder import JobFolder, JobsFolder
from fitwright.web.packed import packed_scene
from tests.unit.web.serving import PATIENCE_S, in_a_loop, some_jobs


@pytest.fixture
def job(tmp_path: Path) -> JobFolder:
    return JobsFolder(some_jobs(tmp_path)).job("drying-rack")


@pytest.fixture
def desk() -> Iterator[Desk]:
    opened = Desk()
    yield opened
    opened.close()


def changed(job: JobFolder, was: str, now: str) -> None:
    text = job.file.read_text()
    assert was in text
    job.file.write_text(text.replace(was, now))


def slowly(assessment: Assessment, tell: Tell) -> str:
    tell("waiting", 0.5)
    time.sleep(600)
    return "never"


def marks(assessment: Assessment, tell: Tell) -> int:
    return len(assessment.piece.marks)


@follows_longer
def behind(assessment: Assessment, tell: Tell) -> int:
    return len(assessment.piece.members)


def test_the_shape_is_computed_once_for_a_state(desk: Desk, job: JobFolder, monkeypatch: pytest.MonkeyPatch) -> None:
    asked: list[str] = []
    packed = packed_scene

    def counted(assessment: Assessment, revision: str) -> bytes:
        asked.append(revision)
        return packed(assessment, revision)

    monkeypatch.setattr(desk_module, "packed_scene", counted)

    async def run() -> None:
        work = desk.work(job)
        first, second = await asyncio.gather(desk.scene(work), desk.scene(desk.work(job)))
        assert first is second
        changed(job, "width: 31 1/2", "width: 31")
        assert await desk.scene(desk.work(job)) != first

    in_a_loop(run())
    assert len(asked) == 2


def test_what_is_asked_of_an_older_state_is_superseded(desk: Desk, job: JobFolder) -> None:
    async def run() -> None:
        older = desk.work(job)
        changed(job, "width: 31 1/2", "width: 31")
        newer = desk.work(job)
        assert newer.newest()
        assert not older.newest()
        with pytest.raises(Superseded):
            await desk.findings(older)

    in_a_loop(run())


def test_a_newer_state_ends_what_is_under_way_for_the_older(desk: Desk, job: JobFolder) -> None:
    async def run() -> None:
        work = desk.work(job)
        aside = desk.aside(work, slowly)
        (worker,) = work.workers
        while aside.step != "waiting":
            await asyncio.sleep(0.05)
        changed(job, "width: 31 1/2", "width: 31")
        desk.work(job)
        with pytest.raises(Superseded):
            await asyncio.wait_for(aside.result, PATIENCE_S)
        assert worker.process is not None
        await asyncio.to_thread(worker.process.join, PATIENCE_S)
        assert not worker.process.is_alive()
        assert work.found(slowly) is None

    in_a_loop(run())


def test_a_task_is_begun_once_and_the_next_has_the_same_process(desk: Desk, job: JobFolder) -> None:
    async def run() -> None:
        work = desk.work(job)
        found = await asyncio.wait_for(desk.aside(work, marks).result, PATIENCE_S)
        assert desk.aside(work, marks) is desk.aside(work, marks)
        assert work.found(marks) == found
        await asyncio.wait_for(desk.aside(work, behind).result, PATIENCE_S)
        assert len(work.workers) == 1

    in_a_loop(run())


def test_only_what_follows_waits_for_what_is_under_way(desk: Desk, job: JobFolder) -> None:
    async def run() -> None:
        work = desk.work(job)
        desk.aside(work, slowly)
        waiting = desk.aside(work, behind)
        assert "waiting for" in waiting.step
        assert len(work.workers) == 1
        await asyncio.wait_for(desk.aside(work, marks).result, PATIENCE_S)
        assert len(work.workers) == 2
        assert not waiting.result.done()

    in_a_loop(run())


def test_what_cannot_be_built_has_a_shape_all_the_same(desk: Desk, job: JobFolder) -> None:
    """Shelves that lie on one another run into one another: that is seen, and told."""
    changed(job, "pitch: 9", "pitch: 1")

    async def run() -> None:
        work = desk.work(job)
        assert len(await desk.scene(work)) > 1000
        with pytest.raises(PieceError, match="runs"):
            await desk.piece(work)

    in_a_loop(run())


def test_a_file_with_mistakes_is_told_by_whatever_is_asked(desk: Desk, job: JobFolder) -> None:
    changed(job, "stock: frame", "stock: fraem")

    async def run() -> None:
        work = desk.work(job)
        for asked in (desk.scene, desk.findings, desk.still):
            with pytest.raises(FitwrightError, match="frame"):
                await asked(work)
        with pytest.raises(FitwrightError):
            desk.aside(work, marks)

    in_a_loop(run())
