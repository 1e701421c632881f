"""Steps as the scheduler sees them, in ticks, and whether a schedule of them can be worked."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from fitwright.making.plan.calendar import TICK, Calendar
from fitwright.making.plan.errors import PlanError
from fitwright.making.plan.model import Step


@dataclass(frozen=True)
class Task:
    """One step in ticks: length, people, begun and ended on one day, what it keeps busy, after: (place, wait)."""

    length: int
    hands: int
    whole: bool
    station: str
    after: tuple[tuple[int, int], ...]


def tasks_of(steps: Sequence[Step], people: int, per_day: int) -> list[Task]:
    """Each step as a task, in the same order. Raises PlanError for a step that waits for none that there is."""
    place = {step.number: k for k, step in enumerate(steps)}
    found = []
    for step in steps:
        unknown = [one.number for one in step.after if one.number not in place]
        if unknown:
            raise PlanError(f"step {step.number} waits for step {unknown[0]}, which there is not")
        length = max(math.ceil(step.minutes / TICK), 1)
        after = tuple((place[one.number], math.ceil(one.wait / TICK)) for one in step.after)
        whole = step.whole and length <= per_day
        found.append(Task(length, min(step.hands, people), whole, step.station, after))
    return found


def in_order(tasks: Sequence[Task]) -> list[int]:
    """Places of the tasks so that none comes before what it waits for. Raises PlanError for a ring of waits."""
    done: set[int] = set()
    order: list[int] = []
    while len(order) < len(tasks):
        ready = [k for k, task in enumerate(tasks) if k not in done and all(a in done for a, _ in task.after)]
        if not ready:
            ring = [k + 1 for k in range(len(tasks)) if k not in done]
            raise PlanError(f"steps {', '.join(map(str, ring))} wait for one another: take one of the waits out")
        order.append(ready[0])
        done.add(ready[0])
    return order


def broken(tasks: Sequence[Task], starts: Sequence[int], calendar: Calendar, people: int) -> list[str]:
    """What is wrong with a schedule, in words; empty when it can be worked."""
    wrong = []
    for k, task in enumerate(tasks):
        for a, wait in task.after:
            if starts[k] < calendar.first_after(starts[a] + tasks[a].length, wait):
                wrong.append(f"task {k} begins before {a} lets it")
        if task.whole and starts[k] // calendar.per_day != (starts[k] + task.length - 1) // calendar.per_day:
            wrong.append(f"task {k} is left over night")
    for tick in set(starts):
        now = [k for k, task in enumerate(tasks) if starts[k] <= tick < starts[k] + task.length]
        if sum(tasks[k].hands for k in now) > people:
            wrong.append(f"tasks {now} take more hands than there are")
        stations = [tasks[k].station for k in now if tasks[k].station]
        if len(stations) != len(set(stations)):
            wrong.append(f"tasks {now} use one station at once")
    return wrong
