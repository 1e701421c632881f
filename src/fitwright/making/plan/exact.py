"""The shortest schedule, with its proof, by constraint programming."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from fitwright.making.plan.calendar import CLOCK_DAY, Calendar
from fitwright.making.plan.tasks import Task


@dataclass(frozen=True)
class Solved:
    """Starts found, None where there are none in time; no schedule is shorter than `bound` [working ticks]."""

    starts: tuple[int, ...] | None
    bound: int
    proven: bool


def shortest(tasks: Sequence[Task], calendar: Calendar, people: int, hint: Sequence[int], seconds: float) -> Solved:
    """The schedule that ends first. hint: starts of one that can be worked, which bounds the search.

    Work is counted in working ticks, so that it goes on the next morning; waits run by the clock, through nights and
    days off. Source: CP-SAT of OR-Tools; model of its documentation for job shops, with days added.
    """
    from ortools.sat.python import cp_model

    model = cp_model.CpModel()
    latest = max(start + task.length for start, task in zip(hint, tasks, strict=True))
    build = _Model(model, calendar, latest)
    starts = [build.task(task, hint[k]) for k, task in enumerate(tasks)]
    for k, task in enumerate(tasks):
        for a, wait in task.after:
            build.waits(a, k, wait)
    build.hands(tasks, people)
    end = model.NewIntVar(0, latest, "end")
    for k in range(len(tasks)):
        model.Add(end >= build.ends[k])
    model.Minimize(end)
    solver = cp_model.CpSolver()
    solver.parameters.max_time_in_seconds = seconds
    solver.parameters.num_workers = 1
    solver.parameters.random_seed = 1
    status = solver.Solve(model)
    if status not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        return Solved(None, max(int(solver.BestObjectiveBound()), 0), False)
    return Solved(
        tuple(int(solver.Value(start)) for start in starts),
        round(solver.BestObjectiveBound()),
        status == cp_model.OPTIMAL,
    )


class _Model:
    """Variables of the tasks as they are added, in order."""

    def __init__(self, model: Any, calendar: Calendar, latest: int) -> None:
        self.model, self.calendar, self.latest = model, calendar, latest
        self.days = -(-latest // calendar.per_day)
        self.starts: list[Any] = []
        self.ends: list[Any] = []
        self.spans: list[Any] = []
        self.clocks: dict[tuple[int, bool], Any] = {}

    def task(self, task: Task, hint: int) -> Any:
        """A task's interval; a whole one lies within its day."""
        start = self.model.NewIntVar(0, self.latest - task.length, "")
        self.starts.append(start)
        self.ends.append(start + task.length)
        self.spans.append(self.model.NewFixedSizeIntervalVar(start, task.length, ""))
        self.model.AddHint(start, hint)
        if task.whole:
            day, _ = self._split(start, 0, self.calendar.per_day - 1)
            self.model.Add(start + task.length <= (day + 1) * self.calendar.per_day)
        return start

    def waits(self, first: int, second: int, wait: int) -> None:
        """The second begins no earlier than a wait by the clock after the first."""
        if not wait:
            self.model.Add(self.starts[second] >= self.ends[first])
            return
        self.model.Add(self._clock(second, end=False) >= self._clock(first, end=True) + wait)

    def hands(self, tasks: Sequence[Task], people: int) -> None:
        """No more hands than people, no station twice at once."""
        self.model.AddCumulative(self.spans, [task.hands for task in tasks], people)
        for station in {task.station for task in tasks if task.station}:
            self.model.AddNoOverlap(
                [span for span, task in zip(self.spans, tasks, strict=True) if task.station == station]
            )

    def _clock(self, k: int, *, end: bool) -> Any:
        """Ticks by the clock of a task's start or end."""
        if (k, end) not in self.clocks:
            low = 1 if end else 0
            when = self.ends[k] if end else self.starts[k]
            day, tick = self._split(when, low, self.calendar.per_day - 1 + low)
            offsets = self.calendar.offsets[: self.days]
            if offsets == tuple(range(self.days)):
                self.clocks[k, end] = day * CLOCK_DAY + tick
            else:
                offset = self.model.NewIntVar(0, offsets[-1], "")
                self.model.AddElement(day, list(offsets), offset)
                self.clocks[k, end] = offset * CLOCK_DAY + tick
        return self.clocks[k, end]

    def _split(self, when: Any, low: int, high: int) -> tuple[Any, Any]:
        day = self.model.NewIntVar(0, self.days - 1, "")
        tick = self.model.NewIntVar(low, high, "")
        self.model.Add(when == day * self.calendar.per_day + tick)
        return day, tick
