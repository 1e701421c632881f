"""Killed at any moment, and two at once: nothing that was kept is lost, nothing is kept by half."""

from __future__ import annotations

import os
import random
import signal
import sqlite3
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from fitwright.shop.records import Built, OnHand, Where
from fitwright.shop.records.keeping import open_records
from tests.unit.shop.records import writing
from tests.unit.shop.records.samples import OFFCUT

ROOT = Path(__file__).parents[4]
KILLS = 200
WRITING = 0.75
"""How many are killed after they have kept something; the others while they still open the records."""


@contextmanager
def program(place: Where) -> Iterator[subprocess.Popen[str]]:
    said = place.server or str(place.file)
    environment = {**os.environ, "PYTHONPATH": f"{ROOT / 'src'}{os.pathsep}{ROOT}"}
    started = subprocess.Popen(
        [sys.executable, writing.__file__, said], stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True,
        env=environment, cwd=ROOT,
    )  # fmt: skip
    yield started
    assert started.stdin is not None
    started.stdin.close()
    assert started.wait(20) == 0


def line(of: subprocess.Popen[str]) -> list[str]:
    assert of.stdout is not None
    said = of.stdout.readline().split()
    assert said, "the program ended"
    return said


def begin(of: subprocess.Popen[str], words: str) -> int:
    assert of.stdin is not None
    of.stdin.write(f"{words}\n")
    of.stdin.flush()
    return int(line(of)[1])


def pair(said: list[str]) -> tuple[int, int]:
    return int(said[1]), int(said[2])


def test_killed_200_times_no_kept_record_is_lost_and_none_is_there_by_half(place: Where) -> None:
    kept: set[tuple[int, int]] = set()
    chance = random.Random(7)
    with program(place) as writer, open_records(place) as records:
        for _ in range(KILLS):
            child, new = begin(writer, "pairs"), set()
            if chance.random() < WRITING:
                new.add(pair(line(writer)))
            time.sleep(chance.uniform(0.0, 0.02))
            os.kill(child, signal.SIGKILL)
            while (said := line(writer)) != ["ended"]:
                new.add(pair(said))
            with records.looking() as look:
                offcuts = {one.id: one.note for one in look.all(OnHand)}
                built = {one.id: one.job for one in look.all(Built)}
            assert all(offcuts[one] == built[other] for one, other in new)
            kept |= new
            assert sorted(offcuts.values()) == sorted(built.values())
        assert len(kept) > KILLS
        assert all(offcuts[one] == built[other] for one, other in kept)
        # what was kept but not said any more is at most the last of each
        assert len(offcuts) - len(kept) <= KILLS
    if place.file is not None:
        with sqlite3.connect(place.file) as connection:
            assert connection.execute("PRAGMA integrity_check").fetchone() == ("ok",)


def test_two_programs_writing_at_once_lose_no_update_and_the_second_is_told(place: Where, tmp_path: Path) -> None:
    with open_records(place) as records:
        first = records.add(OFFCUT)
        with program(place) as one, program(place) as other:
            gate = tmp_path / "gate"
            for writer in (one, other):
                begin(writer, f"counting 60 {gate}")
            assert [line(writer) for writer in (one, other)] == [["read"]] * 2
            gate.touch()  # both have read the same version: only one of them can write it
            refused = [int(line(writer)[1]) for writer in (one, other)]
            assert [line(writer) for writer in (one, other)] == [["ended"]] * 2
        (last,) = records.all(OnHand)
        assert last.count == first.count + 120
        assert last.version == first.version + 120
        assert sum(refused) > 0, "they never met: the test shows nothing"
