"""What is computed aside comes back, tells how far it is, and can be ended."""

from __future__ import annotations

import asyncio
import time
from pathlib import Path

import pytest

from fitwright.assess import Assessment
from fitwright.errors import FitwrightError
from fitwright.web.aside import Superseded, Tell, begin
from tests.demos import EXAMPLES
from tests.unit.web.serving import in_a_loop

TEXT = (EXAMPLES / "coat-rail" / "job.yaml").read_text(encoding="utf-8")


def marks(assessment: Assessment, tell: Tell) -> list[str]:
    tell("half way", 0.5)
    return [mark.mark for mark in assessment.piece.marks]


def never(assessment: Assessment, tell: Tell) -> None:
    tell("waiting", 0.1)
    time.sleep(600)


def wrong(assessment: Assessment, tell: Tell) -> None:
    raise FitwrightError("this cannot be: take another")


def test_a_result_comes_back_with_progress_on_the_way() -> None:
    async def run() -> None:
        aside = begin(marks, TEXT, None)
        assert "C1" in await asyncio.wait_for(aside.result, 60)
        assert (aside.step, aside.share) == ("half way", 0.5)

    in_a_loop(run())


def test_what_is_wrong_is_told_in_its_words() -> None:
    async def run() -> None:
        with pytest.raises(FitwrightError, match="take another"):
            await asyncio.wait_for(begin(wrong, TEXT, None).result, 60)
        with pytest.raises(FitwrightError, match=r"shop\.yaml"):
            await asyncio.wait_for(begin(marks, TEXT, Path("/nowhere/shop.yaml")).result, 60)

    in_a_loop(run())


def test_a_newer_change_ends_it() -> None:
    async def run() -> None:
        aside = begin(never, TEXT, None)
        while aside.step != "waiting":
            await asyncio.sleep(0.05)
        aside.stop()
        with pytest.raises(Superseded):
            await aside.result
        assert aside.process is not None
        await asyncio.to_thread(aside.process.join, 20)
        assert not aside.process.is_alive()

    in_a_loop(run())


def test_what_is_stopped_before_it_began_never_begins() -> None:
    async def run() -> None:
        aside = begin(never, TEXT, None)
        aside.stop()
        with pytest.raises(Superseded):
            await aside.result

    in_a_loop(run())
