"""Which steps decide when it is done, and what is done while others dry."""

from __future__ import annotations

from collections.abc import Sequence

from fitwright.making.plan.calendar import Calendar
from fitwright.making.plan.tasks import Task


def critical_chain(tasks: Sequence[Task], starts: Sequence[int], calendar: Calendar) -> list[int]:
    """Places of the tasks, first to last, each of which lets the next one begin: by its wait or by freeing hands.

    The chain is followed back from the task that ends last; where several let it begin at once, what it waits for goes
    before what merely kept the hands busy.
    """
    ends = [start + task.length for start, task in zip(starts, tasks, strict=True)]
    at = max(range(len(tasks)), key=lambda k: (ends[k], k))
    chain = [at]
    while starts[at] > 0:
        let = [(calendar.first_after(ends[a], wait), 1, a) for a, wait in tasks[at].after]
        let += [(ends[k], 0, k) for k in range(len(tasks)) if ends[k] <= starts[at] and k != at]
        if not let:
            break
        at = max(let)[2]
        chain.append(at)
    return chain[::-1]


def meanwhile(tasks: Sequence[Task], starts: Sequence[int], calendar: Calendar, place: int) -> list[int]:
    """Places of the tasks that are begun while what follows a task waits for it."""
    end = starts[place] + tasks[place].length
    waits = [wait for task in tasks for a, wait in task.after if a == place and wait]
    if not waits:
        return []
    until = calendar.first_after(end, max(waits))
    return [k for k in sorted(range(len(tasks)), key=lambda k: starts[k]) if end <= starts[k] < until]
