"""Taking over what a job has left: its hours and readings, once, however often it is said."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from fitwright.shop.records.model import Hours, Measured, values_of

if TYPE_CHECKING:
    from fitwright.shop.records.keeping import Change, Records


def remember(records: Records, job: str, hours: Sequence[Hours], readings: Sequence[Measured]) -> int:
    """Keep a job's hours and readings in the place of those kept of it before; how many are new or changed."""
    with records.changing() as change:
        return _exchange(change, Hours, job, hours) + _exchange(change, Measured, job, readings)


def _exchange(
    change: Change, kind: type[Hours] | type[Measured], job: str, wanted: Sequence[Hours] | Sequence[Measured]
) -> int:
    there = [one for one in change.all(kind) if one.job == job]
    new = [one for one in wanted if values_of(one) not in map(values_of, there)]
    for one in there:
        if values_of(one) not in map(values_of, wanted):
            change.remove(one)
    for one in new:
        change.add(one)
    return len(new)
