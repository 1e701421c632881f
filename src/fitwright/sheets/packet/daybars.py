"""Steps as bars over days: full where the finish hangs on them, open elsewhere, a thin line while they dry."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import timedelta
from fractions import Fraction

import numpy as np

from fitwright.making.plan import Moment, Schedule, Scheduled
from fitwright.making.plan.coats import DAY_MIN
from fitwright.sheets.drawing import Drawing, LineKind, Paper, lettering
from fitwright.sheets.drawing.directions import Projection
from fitwright.sheets.drawing.model import SMALL_TEXT, Hatch, Note, Stroke, View
from fitwright.sheets.drawing.scales import Scale

WIDTH, TITLES, STARTS = 180.0, 66.0, 22.0
ROW, BAR, HEAD = 5.0, 3.2, 11.0
ROWS_A_PAGE = 30
SHORTEST = 0.9
FULL = 0.35  # between the lines of a hatch that looks full [mm]
EDGE = 1.0


@dataclass(frozen=True)
class _Axis:
    """Days by the calendar across the paper; each shows its working hours only."""

    schedule: Schedule
    days: int

    @staticmethod
    def of(schedule: Schedule) -> _Axis:
        return _Axis(schedule, _day_of(schedule.finish, schedule) + 1)

    def x(self, day: float) -> float:
        """Where a day and a part of it lies on the paper [mm]."""
        return TITLES + STARTS + (WIDTH - TITLES - STARTS - 2 * EDGE) * min(day / self.days, 1.0)

    def of_moment(self, moment: Moment) -> float:
        """Where a moment lies."""
        return self.x(_day_of(moment, self.schedule) + moment.minute / (self.schedule.hours.hours * 60))

    def of_wait(self, end: Moment, minutes: int) -> float:
        """Where a wait by the clock ends that begins at a moment."""
        day, minute = divmod(end.minute + minutes, DAY_MIN)
        share = min(minute / (self.schedule.hours.hours * 60), 1.0)
        return self.x(_day_of(end, self.schedule) + day + share)


def _day_of(moment: Moment, schedule: Schedule) -> int:
    """Days by the calendar since the first one."""
    first = schedule.steps[0].start.at
    if moment.at is None or first is None:
        return moment.day
    return (moment.at.date() - min(one.start.at for one in schedule.steps if one.start.at is not None).date()).days


def day_bars(schedule: Schedule) -> tuple[Drawing, ...]:
    """Pictures of all steps, so many rows to a page, all over the same days."""
    axis, steps = _Axis.of(schedule), schedule.steps
    return tuple(_picture(axis, steps[k : k + ROWS_A_PAGE]) for k in range(0, len(steps), ROWS_A_PAGE))


def _picture(axis: _Axis, steps: Sequence[Scheduled]) -> Drawing:
    height = HEAD + ROW * len(steps)
    strokes, notes = _heads(axis, height)
    hatches: list[Hatch] = []
    for row, timed in enumerate(steps):
        y = height - HEAD - ROW * (row + 0.5)
        notes += _names(timed, y)
        strokes += _rows(axis, timed, y)
        low, high = _span(axis, timed)
        if timed.critical:
            hatches.append(Hatch(_corners(low, y, high), FULL))
    view = View(
        "days", Scale(Fraction(1)), tuple(strokes), (), tuple(hatches), (), (), tuple(notes), origin=(EDGE, EDGE)
    )
    paper = Paper("picture", WIDTH, height + 2 * EDGE, Projection.THIRD_ANGLE, "metric", margin=0.0)
    return Drawing(paper, (view,), None, framed=False)


def _heads(axis: _Axis, height: float) -> tuple[list[Stroke], list[Note]]:
    """A line for each day and what it is called."""
    strokes, notes = [], []
    first = min((one.start.at for one in axis.schedule.steps if one.start.at is not None), default=None)
    for day in range(axis.days + 1):
        strokes.append(_line((axis.x(day), 0.0), (axis.x(day), height - HEAD / 2), LineKind.THIN))
        if day == axis.days:
            break
        middle = (axis.x(day) + axis.x(day + 1)) / 2
        at = None if first is None else first + timedelta(days=day)
        said = (f"{day + 1}", "") if at is None else (f"{at:%a}"[:2], str(at.day))
        notes += [Note(text, (middle, height - 2.2 - 4.2 * k), SMALL_TEXT) for k, text in enumerate(said) if text]
        if at is not None and not axis.schedule.hours.works(at.date()):
            strokes.append(_line((axis.x(day), height / 2), (axis.x(day + 1), height / 2), LineKind.THIN))
    return strokes, notes


def _names(timed: Scheduled, y: float) -> list[Note]:
    title = f"{timed.step.number}  {timed.step.title}"
    start = timed.start.at
    when = f"day {timed.start.day + 1}" if start is None else f"{start:%a} {start.day}. {start:%H:%M}"
    return [
        Note(lettering.shortened(title, SMALL_TEXT, TITLES - 2), (0.0, y), SMALL_TEXT, "start", bold=timed.critical),
        Note(when, (TITLES + STARTS - 2, y), SMALL_TEXT, "end"),
    ]


def _span(axis: _Axis, timed: Scheduled) -> tuple[float, float]:
    low, high = axis.of_moment(timed.start), axis.of_moment(timed.finish)
    return low, max(high, low + SHORTEST)


def _rows(axis: _Axis, timed: Scheduled, y: float) -> list[Stroke]:
    """The outline of a bar, the line of its drying, and the rule below its row."""
    low, high = _span(axis, timed)
    corners = _corners(low, y, high)
    lines = [Stroke(np.concatenate([corners, corners[:1]]), LineKind.VISIBLE)]
    waits = [one.wait for other in axis.schedule.steps for one in other.step.after if one.number == timed.step.number]
    if max(waits, default=0) > 0:
        until = axis.of_wait(timed.finish, max(waits))
        lines.append(_line((high, y), (max(until, high), y), LineKind.HIDDEN))
    return [*lines, _line((0.0, y - ROW / 2), (WIDTH - 2 * EDGE, y - ROW / 2), LineKind.THIN)]


def _corners(low: float, y: float, high: float) -> np.ndarray[tuple[int, ...], np.dtype[np.float64]]:
    return np.array([[low, y - BAR / 2], [high, y - BAR / 2], [high, y + BAR / 2], [low, y + BAR / 2]])


def _line(start: tuple[float, float], end: tuple[float, float], kind: LineKind) -> Stroke:
    return Stroke(np.array([start, end]), kind)
