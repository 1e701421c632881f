"""The schedule: quick placings first, then the proof that nothing ends earlier, or something that does."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from fitwright.making.plan.calendar import TICK, Calendar, begin_by
from fitwright.making.plan.critical import critical_chain, meanwhile
from fitwright.making.plan.errors import PlanError
from fitwright.making.plan.exact import shortest
from fitwright.making.plan.model import Schedule, Scheduled, Step, WorkingHours
from fitwright.making.plan.placing import by_priority, days_enough, placed, tails
from fitwright.making.plan.tasks import Task, in_order, tasks_of

USUAL_HOURS = WorkingHours()
MOST_PEOPLE = 8


def schedule_of(
    steps: Sequence[Step],
    *,
    hours: WorkingHours = USUAL_HOURS,
    people: int = 1,
    begin: date | None = None,
    due: date | None = None,
    seconds: float = 8.0,
) -> Schedule:
    """When each step is done, so that all of it is done as early as can be.

    begin: the first day; without it days follow one another without weekends, and what comes out can be worked from
    any day on, since drying only gains by a weekend. seconds: time limit for the proof.

    Raises PlanError for no steps, people or hours that cannot be, and steps that wait for one another.
    Holds for steps whose times are right; work goes on the next morning where a step is not `whole`.
    Source: see `shortest`.
    """
    if not steps:
        raise PlanError("there are no steps to plan: build them first")
    if not 1 <= people <= MOST_PEOPLE:
        raise PlanError(f"{people} people cannot be planned with: give 1 to {MOST_PEOPLE}")
    per_day = Calendar(hours, None, 1).per_day
    tasks = tasks_of(steps, people, per_day)
    in_order(tasks)
    calendar = Calendar(hours, begin, days_enough(tasks, per_day))
    starts = _quick(tasks, calendar, people)
    found = shortest(tasks, calendar, people, starts, seconds)
    if found.starts is not None and _length(tasks, found.starts) < _length(tasks, starts):
        better = placed(tasks, by_priority(tasks, [-start for start in found.starts]), calendar, people)
        starts = better if _length(tasks, better) <= _length(tasks, found.starts) else list(found.starts)
    return _told(steps, tasks, starts, calendar, people, due, found.bound)


def _quick(tasks: Sequence[Task], calendar: Calendar, people: int) -> list[int]:
    """The better of two placings: in build order, and what has most to follow first; build order where they tie."""
    orders = (by_priority(tasks, [-k for k in range(len(tasks))]), by_priority(tasks, tails(tasks)))
    return min((placed(tasks, order, calendar, people) for order in orders), key=lambda starts: _length(tasks, starts))


def _length(tasks: Sequence[Task], starts: Sequence[int]) -> int:
    return max(start + task.length for start, task in zip(starts, tasks, strict=True))


def _told(
    steps: Sequence[Step],
    tasks: Sequence[Task],
    starts: Sequence[int],
    calendar: Calendar,
    people: int,
    due: date | None,
    bound: int,
) -> Schedule:
    length = _length(tasks, starts)
    chain = critical_chain(tasks, starts, calendar)
    finish = calendar.moment(length, end=True)
    timed = tuple(
        Scheduled(
            step,
            calendar.moment(starts[k], end=False),
            calendar.moment(starts[k] + tasks[k].length, end=True),
            k in chain,
            tuple(steps[m].number for m in meanwhile(tasks, starts, calendar, k)),
        )
        for k, step in enumerate(steps)
    )
    return Schedule(
        steps=timed,
        critical=tuple(steps[k].number for k in chain),
        finish=finish,
        days=finish.day + 1,
        length=length * TICK,
        bound=min(bound, length) * TICK,
        proven=bound >= length,
        people=people,
        hours=calendar.hours,
        due=due,
        begin_by=None if due is None else begin_by(calendar.hours, due, finish.day + 1),
        margin=None if due is None or finish.at is None else (due - finish.at.date()).days,
        notes=tuple(_notes(steps, people)),
    )


def _notes(steps: Sequence[Step], people: int) -> list[str]:
    helped = [str(step.number) for step in steps if step.hands > people]
    return [f"A helper is needed at step {', '.join(helped)}."] if helped else []
