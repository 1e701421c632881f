"""What is written into the job file while building: ticks, hours, readings."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import date, datetime

from fitwright.job import Job, JobFile
from fitwright.job.progress import Progress

Change = Callable[[Progress], Progress]
HOURS_DIGITS = 4  # a third of a second


def started(now: datetime) -> Change:
    """The timer runs from now on; one that runs goes on."""
    return lambda one: one if one.since is not None else replace(one, since=now, done=None)


def stopped(now: datetime) -> Change:
    """The timer stands, its time added to the hours."""
    return lambda one: one if one.since is None else replace(one, hours=one.hours_at(now), since=None)


def ticked(now: datetime) -> Change:
    """Done now, the timer stopped."""
    return lambda one: replace(stopped(now)(one), done=now)


def unticked(one: Progress) -> Progress:
    """Not done after all."""
    return replace(one, done=None)


def with_hours(hours: float) -> Change:
    """So many hours, whatever the timer said."""
    return lambda one: replace(one, hours=hours, since=None)


def write_progress(file: JobFile, job: Job, step: str, change: Change) -> None:
    """Change what is kept of one step, where it stands or at the end of the list."""
    names = [one.step for one in job.progress]
    place = names.index(step) if step in names else -1
    before = job.progress[place] if step in names else Progress(step)
    after = change(before)
    if after != before and step in names:
        file.set(("progress", place), _entry(after))
    elif after != before:
        file.append("progress", _entry(after))


def _entry(one: Progress) -> dict[str, str | float]:
    entry: dict[str, str | float] = {"step": one.step}
    if one.hours is not None:
        entry["hours"] = round(one.hours, HOURS_DIGITS)
    if one.since is not None:
        entry["since"] = _moment(one.since)
    if one.done is not None:
        entry["done"] = _moment(one.done)
    return entry


def _moment(when: datetime) -> str:
    """A time that stays the same moment when the clocks change; one without a zone is kept as it is."""
    return when.isoformat(" ", timespec="seconds") if when.tzinfo is None else when.isoformat(timespec="seconds")


def write_reading(file: JobFile, of: str, value: str, step: str, today: date) -> None:
    """Add a reading: the last one of the same thing counts."""
    entry = {"of": of, "is": value, "when": today.isoformat(), "step": step}
    file.append("readings", entry)
