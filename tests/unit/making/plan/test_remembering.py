from __future__ import annotations

import math
from dataclasses import replace
from datetime import date, datetime

import pytest

from fitwright.job import load_job
from fitwright.job.progress import Progress
from fitwright.job.readings import Reading, parse_of
from fitwright.making.plan import Step
from fitwright.making.plan.model import AskedReading
from fitwright.making.plan.remembering import hours_of, readings_of
from fitwright.shop.records import Hours, Measured
from tests.demos import EXAMPLES

JOB = load_job(EXAMPLES / "drying-rack" / "job.yaml")
TODAY = date(2027, 2, 9)
BEND = Step(3, "bend", "Bend A1", (), (), (), 45, (), (), hands=2, key="bend A1",
            asks=(AskedReading("bend 1 of hoop 1", math.radians(90), math.radians(0.5), angle=True),
                  AskedReading("cut length of A1", 2500.0), AskedReading("gap left")))  # fmt: skip


def reading(of: str, value: float, within: float | None = None) -> Reading:
    known = parse_of(of)
    assert known is not None
    return Reading(known, value, within)


def test_hours_of_finished_steps_stand_against_the_usual_ones() -> None:
    done = datetime(2027, 2, 3, 16, 0)
    job = replace(JOB, progress=(Progress("bend A1", 1.25, done=done), Progress("saw", 2.0, done=done)))
    assert list(hours_of(job, [BEND], TODAY)) == [Hours(date(2027, 2, 3), JOB.name, "bend A1", "bend", 1.25, 2, 1.5)]


def test_steps_under_way_or_without_hours_leave_nothing() -> None:
    job = replace(JOB, progress=(Progress("bend A1", 1.25), Progress("bend A1", None, done=datetime(2027, 2, 3))))
    assert list(hours_of(job, [BEND], TODAY)) == []


def test_readings_of_what_was_asked_for_are_kept_in_degrees_and_mm() -> None:
    job = replace(JOB, readings=(
        reading("bend 1 of hoop 1", math.radians(91.2), math.radians(0.2)), reading("cut length of A1", 2501.0),
        reading("gap left", 9.0), reading("diagonal 1 at the front", 1900.0),
    ))  # fmt: skip
    angle, length = readings_of(job, [BEND], TODAY)
    assert [angle.asked, angle.got, angle.precision] == pytest.approx([90, 91.2, 0.2 / 1.96])
    assert angle == Measured(
        TODAY, JOB.name, "bend 1 of hoop 1", angle.asked, angle.got, "deg", angle.precision, "bend A1"
    )  # fmt: skip
    assert (length.asked, length.got, length.unit) == (2500.0, 2501.0, "mm")
