"""A step of the build, and the schedule of all of them."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date, datetime, time, timedelta


@dataclass(frozen=True)
class Number:
    """One number to work to: what it is, its value as printed, and how many times it is done (boxes to tick)."""

    what: str
    value: str
    ticks: int = 1


@dataclass(frozen=True)
class Reading:
    """Something to be measured and written down: what, and what it should be, with how far off it may be."""

    what: str
    wanted: str = ""


@dataclass(frozen=True)
class AskedReading:
    """A reading for the job file's `readings`: of what, as they call it, what it should be, how far off it may be.

    asked, tolerance: [mm], of an angle [rad]; None where nothing can be said before.
    """

    of: str
    asked: float | None = None
    tolerance: float | None = None
    angle: bool = False


@dataclass(frozen=True)
class Caution:
    """A caution at the step where it matters, and its basis."""

    words: str
    basis: str


@dataclass(frozen=True)
class After:
    """A step that must be done before, how long to wait after it [min by the clock], and what is waited for."""

    number: int
    wait: int = 0
    why: str = ""


@dataclass(frozen=True)
class Step:
    """One operation in build order.

    minutes: of work; hands: people it takes; whole: begun and ended on one day; station: what it keeps busy.
    sheet: the sheet of the packet that has the rest; marks: the parts that it is about. asks: readings that are kept.
    key: its name in the job file's `progress`, which stays when other steps come or go.
    """

    number: int
    kind: str
    title: str
    numbers: tuple[Number, ...]
    setup: tuple[str, ...]
    checks: tuple[str, ...]
    minutes: int
    cautions: tuple[Caution, ...]
    after: tuple[After, ...]
    hands: int = 1
    whole: bool = False
    station: str = ""
    task: str = "shop"
    readings: tuple[Reading, ...] = ()
    sheet: str = ""
    marks: tuple[str, ...] = ()
    asks: tuple[AskedReading, ...] = ()
    key: str = ""


@dataclass(frozen=True)
class WorkingHours:
    """When the shop works: hours a day without breaks, when it opens, days of the week (0 Monday), days off."""

    hours: float = 8.0
    opens: time = time(8, 0)
    weekdays: tuple[int, ...] = (0, 1, 2, 3, 4)
    off: tuple[date, ...] = ()

    def works(self, day: date) -> bool:
        """Whether it is a working day."""
        return day.weekday() in self.weekdays and day not in self.off


@dataclass(frozen=True)
class Moment:
    """A time of work: working day counted from 0, minutes since the shop opened, and the date and time if known."""

    day: int
    minute: int
    at: datetime | None = None

    def __str__(self) -> str:
        if self.at is not None:
            return self.at.strftime("%a %d %b %H:%M")
        return f"day {self.day + 1}, {self.minute // 60} h {self.minute % 60:02d}"


@dataclass(frozen=True)
class Scheduled:
    """A step in its time. meanwhile: steps that are worked on while this one's followers wait for it to dry."""

    step: Step
    start: Moment
    finish: Moment
    critical: bool
    meanwhile: tuple[int, ...] = ()


@dataclass(frozen=True)
class Schedule:
    """All steps in time.

    critical: the chain of steps, each of which begins as soon as the one before lets it, that ends last.
    finish: of everything; days: working days that it takes. proven: that nothing ends earlier; bound: what is proven
    [working min]; length: what this one takes. begin_by: last day to begin on so as to be done by the due date.
    margin: days from finish to due, None without both dates; notes: what was taken for granted.
    """

    steps: tuple[Scheduled, ...]
    critical: tuple[int, ...]
    finish: Moment
    days: int
    length: int
    bound: int
    proven: bool
    people: int
    hours: WorkingHours
    due: date | None = None
    begin_by: date | None = None
    margin: int | None = None
    notes: tuple[str, ...] = field(default=())

    @property
    def work_minutes(self) -> int:
        """Work in all, of all hands [min]."""
        return sum(one.step.minutes * max(one.step.hands, 1) for one in self.steps)

    @property
    def finish_date(self) -> date | None:
        """The day on which it is done."""
        return None if self.finish.at is None else self.finish.at.date()


DAY = timedelta(days=1)
