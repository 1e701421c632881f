"""What is computed aside comes back, tells how far it is, and can be ended."""

from __future__ import annotations

import asyncio
import time
from functools import partial
from multiprocessing.context import ForkServerProcess

import pytest

from fitwright.assess import Assessment
from fitwright.errors import FitwrightError
from fitwright.shop import default_shop
from fitwright.web.aside import Aside, Given, Superseded, Task, Tell, Worker, name_of
from fitwright.web.equipment import Equipped
from tests.demos import EXAMPLES
from tests.unit.web.serving import PATIENCE_S, in_a_loop

TEXT = (EXAMPLES / "coat-rail" / "job.yaml").read_text(encoding="utf-8")


def begin(*tasks: Task) -> tuple[Worker, list[Aside]]:
    worker = Worker(Given(TEXT, Equipped(default_shop("mm"), None)))
    return worker, [worker.do(task) for task in tasks]


def marks(assessment: Assessment, tell: Tell) -> list[str]:
    tell("half way", 0.5)
    assessment.__dict__["seen"] = "before"
    return [mark.mark for mark in assessment.piece.marks]


def left(assessment: Assessment, tell: Tell) -> str:
    return str(assessment.__dict__.get("seen"))


def one_of(which: int, assessment: Assessment, tell: Tell) -> str:
    return assessment.piece.marks[which].mark


def never(assessment: Assessment, tell: Tell) -> None:
    tell("waiting", 0.1)
    time.sleep(600)


def wrong(assessment: Assessment, tell: Tell) -> None:
    raise FitwrightError("this cannot be: take another")


def dies(assessment: Assessment, tell: Tell) -> None:
    raise SystemExit(3)


def test_a_process_that_cannot_be_started_is_told_and_nobody_waits(monkeypatch: pytest.MonkeyPatch) -> None:
    def fails(_: ForkServerProcess) -> None:
        raise EOFError("unexpected EOF")

    async def run() -> None:
        monkeypatch.setattr(ForkServerProcess, "start", fails)
        worker, (aside,) = begin(marks)
        with pytest.raises(FitwrightError, match="ended"):
            await asyncio.wait_for(aside.result, PATIENCE_S)
        with pytest.raises(FitwrightError, match="ended"):
            await asyncio.wait_for(worker.do(marks).result, PATIENCE_S)
        assert worker.stopped

    in_a_loop(run())


def test_a_result_comes_back_with_progress_on_the_way() -> None:
    async def run() -> None:
        worker, (aside,) = begin(marks)
        assert "C1" in await asyncio.wait_for(aside.result, PATIENCE_S)
        assert (aside.step, aside.share) == ("half way", 0.5)
        assert not worker.busy
        worker.stop()

    in_a_loop(run())


def test_what_one_task_worked_out_the_next_finds() -> None:
    async def run() -> None:
        worker, (first, second) = begin(marks, left)
        assert second.step == "waiting for what is under way"
        assert await asyncio.wait_for(second.result, PATIENCE_S) == "before"
        assert first.result.done()
        worker.stop()

    in_a_loop(run())


def test_what_is_wrong_is_told_in_its_words_and_the_next_task_goes_on() -> None:
    async def run() -> None:
        worker, (first, second) = begin(wrong, marks)
        with pytest.raises(FitwrightError, match="take another"):
            await asyncio.wait_for(first.result, PATIENCE_S)
        assert "C1" in await asyncio.wait_for(second.result, PATIENCE_S)
        worker.stop()

    in_a_loop(run())


def test_a_process_that_ends_is_told_by_all_that_wait_for_it() -> None:
    async def run() -> None:
        worker, asides = begin(dies, marks)
        for aside in asides:
            with pytest.raises(FitwrightError, match="ended"):
                await asyncio.wait_for(aside.result, PATIENCE_S)
        while not worker.stopped:
            await asyncio.sleep(0.02)

    in_a_loop(run())


def test_a_newer_change_ends_it() -> None:
    async def run() -> None:
        worker, (aside, behind) = begin(never, marks)
        while aside.step != "waiting":
            await asyncio.sleep(0.05)
        worker.stop()
        for one in (aside, behind):
            with pytest.raises(Superseded):
                await one.result
        assert worker.process is not None
        await asyncio.to_thread(worker.process.join, PATIENCE_S)
        assert not worker.process.is_alive()

    in_a_loop(run())


def test_what_is_stopped_before_it_began_never_begins() -> None:
    async def run() -> None:
        worker, (aside,) = begin(never)
        worker.stop()
        with pytest.raises(Superseded):
            await aside.result

    in_a_loop(run())


def test_tasks_are_told_apart_by_what_they_were_given() -> None:
    assert name_of(marks) != name_of(left)
    assert name_of(partial(one_of, 1)) != name_of(partial(one_of, 2))
