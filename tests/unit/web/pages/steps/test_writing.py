"""Ticks, hours and readings in the job file."""

from __future__ import annotations

from datetime import date, datetime, timedelta

import pytest

from fitwright.job import JobFile, parse_job
from fitwright.job.progress import Progress
from fitwright.web.pages.steps.writing import (
    Change,
    started,
    stopped,
    ticked,
    unticked,
    with_hours,
    write_progress,
    write_reading,
)

TEXT = """job: {name: Bar, unit: mm}   # a comment
stock: {frame: round tube 25 x 2 mm}
parts: {bar: {stock: frame, path: [[0, 0, 0], [0, 0, 900]]}}
"""
NOON = datetime(2027, 2, 3, 12, 0).astimezone()


def written(text: str, step: str, change: Change) -> str:
    file = JobFile(text)
    write_progress(file, parse_job(text), step, change)
    return file.text()


def kept(text: str) -> tuple[Progress, ...]:
    return parse_job(text).progress


def test_a_timer_started_and_stopped_keeps_its_hours() -> None:
    text = written(TEXT, "saw", started(NOON))
    assert kept(text)[0].since == NOON
    again = written(text, "saw", started(NOON + timedelta(hours=1)))
    assert again == text  # it runs already
    text = written(text, "saw", stopped(NOON + timedelta(minutes=90)))
    assert kept(text) == (Progress("saw", 1.5, line=5),)
    text = written(text, "saw", started(NOON))
    text = written(text, "saw", ticked(NOON + timedelta(minutes=30)))
    assert kept(text)[0].hours == 2.0
    assert kept(text)[0].since is None
    assert kept(text)[0].done is not None
    assert text.startswith(TEXT)


def test_many_steps_stand_each_on_its_line() -> None:
    text = TEXT
    for number in range(60):
        text = written(text, f"step {number} with a long name that says what it is about", ticked(NOON))
    assert len(kept(text)) == 60
    assert max(map(len, text.splitlines())) < 200


def test_a_tick_is_taken_back_and_hours_are_set_by_hand() -> None:
    text = written(written(TEXT, "saw", ticked(NOON)), "saw", unticked)
    assert kept(text) == (Progress("saw", line=5),)
    text = written(written(text, "saw", started(NOON)), "saw", with_hours(0.75))
    assert kept(text) == (Progress("saw", 0.75, line=5),)


def test_the_moment_stays_when_the_clocks_change() -> None:
    (one,) = kept(written(TEXT, "saw", started(NOON)))
    assert one.since is not None
    assert one.since.tzinfo is not None


def test_readings_are_added_and_read_back() -> None:
    file = JobFile(TEXT)
    write_reading(file, "cut length of A1", "899.5", "saw", date(2027, 2, 3))
    write_reading(file, "cut length of A1", "900", "saw", date(2027, 2, 4))
    readings = parse_job(file.text()).readings
    assert [(one.value, one.when, one.step) for one in readings] == [
        (pytest.approx(899.5), date(2027, 2, 3), "saw"), (900.0, date(2027, 2, 4), "saw"),
    ]  # fmt: skip
