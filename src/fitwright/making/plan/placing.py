"""A schedule by placing one task after another as early as it goes: quick, often already the best."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from fitwright.making.plan.calendar import CLOCK_DAY, Calendar
from fitwright.making.plan.tasks import Task


def days_enough(tasks: Sequence[Task], per_day: int) -> int:
    """Days in which everything fits, one thing after another with every wait sat out."""
    work = sum(task.length for task in tasks) // per_day + len(tasks) + 2
    return work + sum(max((wait for _, wait in task.after), default=0) // CLOCK_DAY + 1 for task in tasks)


def placed(tasks: Sequence[Task], order: Sequence[int], calendar: Calendar, people: int) -> list[int]:
    """Start of each task in working ticks, placed in an order in which none comes before what it waits for.

    Each goes to the earliest place that is left, gaps while paint dries too.
    Source: serial schedule generation, Kolisch, Eur. J. Operational Research 90 (1996) 320-333 (from memory).
    """
    horizon = calendar.days * calendar.per_day
    busy = np.zeros(horizon, dtype=int)
    stations: dict[str, np.ndarray[tuple[int], np.dtype[np.bool_]]] = {}
    starts = [0] * len(tasks)
    for k in order:
        task = tasks[k]
        taken = busy > people - task.hands
        if task.station:
            taken = taken | stations.setdefault(task.station, np.zeros(horizon, dtype=bool))
        earliest = max((calendar.first_after(starts[a] + tasks[a].length, wait) for a, wait in task.after), default=0)
        start = _fits(task, earliest, taken, calendar.per_day)
        starts[k] = start
        busy[start : start + task.length] += task.hands
        if task.station:
            stations[task.station][start : start + task.length] = True
    return starts


def _fits(task: Task, earliest: int, taken: np.ndarray[tuple[int], np.dtype[np.bool_]], per_day: int) -> int:
    """The first start from `earliest` at which nothing is taken over its length."""
    start = earliest
    while True:
        if task.whole and start % per_day + task.length > per_day:
            start += per_day - start % per_day
        held = np.flatnonzero(taken[start : start + task.length])
        if not len(held):
            return start
        start += int(held[-1]) + 1


def tails(tasks: Sequence[Task]) -> list[int]:
    """For each task, ticks by the clock from its start to the end of all that waits for it, work by night included."""
    found = [task.length for task in tasks]
    for _ in tasks:
        for k, task in enumerate(tasks):
            for a, wait in task.after:
                found[a] = max(found[a], tasks[a].length + wait + found[k])
    return found


def by_priority(tasks: Sequence[Task], priority: Sequence[float]) -> list[int]:
    """The order of largest priority first in which none comes before what it waits for."""
    order: list[int] = []
    left = set(range(len(tasks)))
    while left:
        ready = [k for k in left if all(a not in left for a, _ in tasks[k].after)]
        best = max(ready, key=lambda k: (priority[k], -k))
        order.append(best)
        left.remove(best)
    return order
