"""What a job leaves to the shop's records: hours of its steps against the usual ones, and readings against what was
asked."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from datetime import date

from fitwright.job.model import Job
from fitwright.job.readings import Of
from fitwright.making.plan.model import AskedReading, Step
from fitwright.shop.records import Hours, Measured

WITHIN_TO_DEVIATION = 1.96
"""What 95 % of readings are within, in standard deviations."""


def hours_of(job: Job, usual: Sequence[Step], today: date) -> Iterator[Hours]:
    """Hours kept in the job's `progress`, of steps that are ticked off.

    usual: the steps with the times that the table of rates gives, before anything was learnt from records.
    """
    steps = {step.key: step for step in usual if step.key}
    for kept in job.progress:
        step = steps.get(kept.step)
        if step is None or kept.done is None or not kept.hours:
            continue
        people = max(step.hands, 1)
        yield Hours(
            kept.done.date() if kept.done else today, job.name, step.key, step.kind, kept.hours, people,
            step.minutes * people / 60,
        )  # fmt: skip


def readings_of(
    job: Job, steps: Sequence[Step], today: date, in_full: Callable[[Of], Of] = lambda of: of
) -> Iterator[Measured]:
    """The job's readings of what a step asks for; those of anything else have nothing to be held against.

    in_full: what a reading is of, named as the steps name it (`bend 1 of hoop 1` for `bend 1 of A1`).
    """
    asked = {one.of: (one, step) for step in steps for one in step.asks if one.asked is not None}
    for reading in job.readings:
        found = asked.get(str(in_full(reading.of)))
        if found is not None:
            one, step = found
            yield _measured(job, one, step, reading.value, reading.within or 0.0, reading.when or today)


def _measured(job: Job, one: AskedReading, step: Step, value: float, within: float, day: date) -> Measured:
    assert one.asked is not None
    asked, got, precision = (
        math.degrees(number) if one.angle else number for number in (one.asked, value, within / WITHIN_TO_DEVIATION)
    )
    unit = "deg" if one.angle else "mm"
    return Measured(day, job.name, one.of, asked, got, unit, precision, step.key)
