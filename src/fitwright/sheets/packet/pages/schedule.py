"""The schedule sheet: when to begin, when it is done, and the steps as bars over the days."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

from fitwright.assess import Assessment
from fitwright.making.plan import Schedule
from fitwright.sheets.drawing import Drawing
from fitwright.sheets.packet.daybars import day_bars
from fitwright.sheets.packet.model import Json, Page
from fitwright.sheets.packet.pages.steps import duration

TITLE = "Schedule"


def schedule_page(schedule: Schedule) -> Page:
    """Dates in words, bars, and what is done while paint dries."""
    pictures = {f"bars-{k}": drawing for k, drawing in enumerate(day_bars(schedule), 1)}
    content: Json = {"said": list(_said(schedule)), "bars": list(pictures), "notes": list(_notes(schedule))}
    return Page("schedule", TITLE, content, pictures)


def begun(assessment: Assessment, whole: Drawing) -> Schedule:
    """The schedule of one person who begins on the first working day after the sheets are made.

    whole: the general arrangement, whose title says when that is.
    """
    made = date.fromisoformat(whole.block.date) if whole.block is not None and whole.block.date else None
    return assessment.scheduled(None if made is None else made + timedelta(days=1))


def _said(schedule: Schedule) -> Iterator[str]:
    begin = schedule.steps[0].start.at
    people = "one person" if schedule.people == 1 else f"{schedule.people} people"
    if begin is not None and schedule.finish.at is not None:
        yield (
            f"Begun on {_day(begin.date())} by {people}, {schedule.hours.hours:g} hours a day: done on "
            f"{_day(schedule.finish.at.date())}, {schedule.days} working days."
        )
    if schedule.due is not None:
        yield f"Due on {_day(schedule.due)}{_margin(schedule)}"
    proof = "no order of work is done earlier" if schedule.proven else (
        f"no order of work is done more than {duration(schedule.length - schedule.bound)} of working time earlier"
    )  # fmt: skip
    yield f"{duration(schedule.work_minutes)} of work in all; the rest is waiting for paint and glue. Proven: {proof}."


def _margin(schedule: Schedule) -> str:
    late = (
        ""
        if schedule.begin_by is None
        else f" To be in time whatever the weekends, begin by {_day(schedule.begin_by)}."
    )
    if schedule.margin is None:
        return "." + late
    if schedule.margin < 0:
        return f": {-schedule.margin} days too late. Take a second person, a quicker paint, or a later date.{late}"
    return f": {schedule.margin} days to spare.{late}"


def _day(day: date) -> str:
    return f"{day:%A} {day.day} {day:%B %Y}"


def _notes(schedule: Schedule) -> Iterator[str]:
    yield f"The finish hangs on steps {', '.join(map(str, schedule.critical))}: an hour lost there is lost."
    for timed in schedule.steps:
        if timed.meanwhile:
            said = ", ".join(map(str, timed.meanwhile))
            yield f"While step {timed.step.number} ({timed.step.title.lower()}) dries or cools: {said}."
    yield from schedule.notes
    yield "Times are usual ones of a one-person shop; write your own beside them, and the next plan is better."
