"""Invariants of schedules: nothing before what it waits for, no more hands than people, nothing shorter than proven."""

from __future__ import annotations

from datetime import date
from itertools import permutations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fitwright.making.plan import After, PlanError, Schedule, Step, WorkingHours, schedule_of
from fitwright.making.plan.calendar import TICK, Calendar
from fitwright.making.plan.placing import days_enough, placed
from fitwright.making.plan.tasks import broken, in_order, tasks_of

quick = settings(max_examples=40, deadline=None)
HOURS = WorkingHours(hours=4.0)


@st.composite
def builds(draw: st.DrawFn, most: int = 7) -> list[Step]:
    """Some steps, each waiting for some of those before it."""
    steps = []
    for number in range(1, draw(st.integers(1, most)) + 1):
        before = draw(st.lists(st.integers(1, number - 1), max_size=3, unique=True)) if number > 1 else []
        after = tuple(After(k, draw(st.sampled_from([0, 0, 60, 900, 2000])), "paint") for k in before)
        minutes, whole = draw(st.integers(1, 300)), draw(st.booleans())
        hands, station = draw(st.integers(1, 2)), draw(st.sampled_from(["", "", "bench"]))
        steps.append(Step(number, "saw", f"step {number}", (), (), (), minutes, (), after, hands, whole, station))
    return steps


def starts_of(schedule: Schedule, calendar: Calendar) -> list[int]:
    return [one.start.day * calendar.per_day + one.start.minute // TICK for one in schedule.steps]


@quick
@given(builds(), st.integers(1, 2), st.sampled_from([None, date(2027, 1, 6), date(2027, 1, 9)]))
def test_a_schedule_can_be_worked(steps: list[Step], people: int, begin: date | None) -> None:
    schedule = schedule_of(steps, hours=HOURS, people=people, begin=begin)
    tasks = tasks_of(steps, people, Calendar(HOURS, None, 1).per_day)
    calendar = Calendar(HOURS, begin, days_enough(tasks, Calendar(HOURS, None, 1).per_day))
    assert broken(tasks, starts_of(schedule, calendar), calendar, people) == []
    assert schedule.proven
    assert schedule.bound <= schedule.length


@quick
@given(builds(most=5), st.integers(1, 2))
def test_no_order_of_placing_is_shorter(steps: list[Step], people: int) -> None:
    """Every order of placing gives a schedule as early as it goes; for so few, all of them are tried."""
    schedule = schedule_of(steps, hours=HOURS, people=people)
    tasks = tasks_of(steps, people, Calendar(HOURS, None, 1).per_day)
    calendar = Calendar(HOURS, None, days_enough(tasks, Calendar(HOURS, None, 1).per_day))
    lengths = []
    for order in permutations(range(len(tasks))):
        at = {k: place for place, k in enumerate(order)}
        if all(at[a] < at[k] for k, task in enumerate(tasks) for a, _ in task.after):
            starts = placed(tasks, order, calendar, people)
            lengths.append(max(s + t.length for s, t in zip(starts, tasks, strict=True)))
    assert schedule.length == min(lengths) * TICK


@quick
@given(builds())
def test_a_second_person_never_costs_time(steps: list[Step]) -> None:
    alone = [Step(**{**vars(step), "hands": 1}) for step in steps]
    assert schedule_of(alone, hours=HOURS, people=2).length <= schedule_of(alone, hours=HOURS).length


@quick
@given(builds())
def test_a_weekend_costs_no_working_time(steps: list[Step]) -> None:
    """What is planned without weekends can be worked from any day on: drying only gains."""
    plain = schedule_of(steps, hours=HOURS)
    assert schedule_of(steps, hours=HOURS, begin=date(2027, 1, 7)).length <= plain.length


@quick
@given(builds())
def test_the_critical_chain_ends_last(steps: list[Step]) -> None:
    schedule = schedule_of(steps, hours=HOURS)
    by_number = {one.step.number: one for one in schedule.steps}
    chain = [by_number[number] for number in schedule.critical]
    assert (chain[-1].finish.day, chain[-1].finish.minute) == (schedule.finish.day, schedule.finish.minute)
    ends = [(one.finish.day, one.finish.minute) for one in chain]
    assert ends == sorted(ends)
    assert {one.step.number for one in schedule.steps if one.critical} == set(schedule.critical)


@given(builds())
@quick
def test_order_keeps_the_waits(steps: list[Step]) -> None:
    tasks = tasks_of(steps, 1, 48)
    order = in_order(tasks)
    assert all(order.index(a) < order.index(k) for k, task in enumerate(tasks) for a, _ in task.after)


def test_a_ring_of_waits_is_told() -> None:
    one = Step(1, "saw", "one", (), (), (), 10, (), (After(2),))
    two = Step(2, "saw", "two", (), (), (), 10, (), (After(1),))
    with pytest.raises(PlanError, match="wait for one another"):
        schedule_of([one, two])
