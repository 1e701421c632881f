"""Working time and clock time: work stops in the evening, paint dries through night and weekend."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from functools import cached_property

from fitwright.making.plan.errors import PlanError
from fitwright.making.plan.model import DAY, Moment, WorkingHours

TICK = 5  # minutes that the plan reckons in
CLOCK_DAY = 24 * 60 // TICK
LONGEST_SEARCH = 4000  # days looked through for a working day


@dataclass(frozen=True)
class Calendar:
    """Working days in a row; working time is counted in ticks of 5 min over them, without nights.

    begin: the first day, None for days that follow one another without weekends.
    Raises PlanError for hours or days that nobody can work.
    """

    hours: WorkingHours
    begin: date | None
    days: int

    def __post_init__(self) -> None:
        if not 0.5 <= self.hours.hours <= 24.0:
            raise PlanError(f"{self.hours.hours:g} working hours a day cannot be: give 0.5 to 24")
        if not set(self.hours.weekdays) & set(range(7)):
            raise PlanError("no day of the week is worked on: give some of 0 (Monday) to 6")

    @property
    def per_day(self) -> int:
        """Ticks of work in a day."""
        return int(self.hours.hours * 60 // TICK)

    @cached_property
    def dates(self) -> tuple[date, ...]:
        """The date of each working day; empty without a first one."""
        return () if self.begin is None else tuple(_working_days(self.hours, self.begin, self.days))

    @cached_property
    def offsets(self) -> tuple[int, ...]:
        """Days by the calendar from the first working day to each."""
        if not self.dates:
            return tuple(range(self.days))
        return tuple((day - self.dates[0]).days for day in self.dates)

    def clock(self, day: int, tick: int) -> int:
        """Ticks by the clock since the first day's opening."""
        return self.offsets[day] * CLOCK_DAY + tick

    def clock_of_end(self, end: int) -> int:
        """The same of an end in working ticks, which may be the last moment of a day."""
        day = max(end - 1, 0) // self.per_day
        return self.clock(day, end - day * self.per_day)

    def first_after(self, end: int, wait: int) -> int:
        """The first working tick at which something can begin, a wait by the clock [ticks] after a working end."""
        if wait == 0:
            return end
        target, day = self.clock_of_end(end) + wait, max(end - 1, 0) // self.per_day
        while self.clock(day, self.per_day) <= target:
            day += 1
        return day * self.per_day + max(target - self.clock(day, 0), 0)

    def moment(self, tick: int, *, end: bool) -> Moment:
        """A working tick as day and minute; an end may be the close of its day."""
        day = (max(tick - 1, 0) if end else tick) // self.per_day
        minute = (tick - day * self.per_day) * TICK
        if not self.dates:
            return Moment(day, minute)
        opened = datetime.combine(self.dates[day], self.hours.opens)
        return Moment(day, minute, opened + timedelta(minutes=minute))


def _working_days(hours: WorkingHours, begin: date, count: int) -> Iterator[date]:
    day, found = begin, 0
    for _ in range(count * 7 + LONGEST_SEARCH):
        if hours.works(day):
            yield day
            found += 1
        if found == count:
            return
        day += DAY
    raise PlanError("too many days off in a row: there is no working day to plan with")


def begin_by(hours: WorkingHours, due: date, days: int) -> date | None:
    """The last day to begin on, so that so many working days are over on the due date; None where there is none."""
    day, left = due, days
    for _ in range(days * 7 + LONGEST_SEARCH):
        left -= hours.works(day)
        if left == 0:
            return day
        day -= DAY
    return None
