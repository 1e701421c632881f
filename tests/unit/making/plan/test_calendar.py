from __future__ import annotations

from datetime import date

import pytest

from fitwright.making.plan import After, PlanError, Step, WorkingHours, schedule_of
from fitwright.making.plan.calendar import Calendar, begin_by

EIGHT = WorkingHours()
FRIDAY = date(2027, 1, 8)


def step(number: int, minutes: int, *after: After, whole: bool = False) -> Step:
    return Step(number, "paint", f"step {number}", (), (), (), minutes, (), after, 1, whole)


def test_paint_dries_over_the_weekend() -> None:
    """Friday 8:00 to 16:00, then 24 hours: Monday at 8:00."""
    calendar = Calendar(EIGHT, FRIDAY, 5)
    assert calendar.first_after(96, 24 * 12) == 96
    assert str(calendar.moment(96, end=False)) == "Mon 11 Jan 08:00"
    # without dates the next day is the next day: it is dry at 16:00 of it, so the morning after
    assert Calendar(EIGHT, None, 5).first_after(96, 24 * 12) == 2 * 96


def test_an_end_may_be_the_close_of_its_day() -> None:
    calendar = Calendar(EIGHT, FRIDAY, 5)
    assert str(calendar.moment(96, end=True)) == "Fri 08 Jan 16:00"


def test_days_off_are_no_working_days() -> None:
    hours = WorkingHours(off=(date(2027, 1, 11),))
    assert Calendar(hours, FRIDAY, 2).dates == (FRIDAY, date(2027, 1, 12))


def test_a_begin_on_sunday_is_monday() -> None:
    assert schedule_of([step(1, 60)], begin=date(2027, 1, 10)).finish_date == date(2027, 1, 11)


def test_last_day_to_begin() -> None:
    # three working days, the last of them Monday the 11th: Thursday, Friday, Monday
    assert begin_by(EIGHT, date(2027, 1, 11), 3) == date(2027, 1, 7)
    # due on a Sunday: the last working day before it is Friday
    assert begin_by(EIGHT, date(2027, 1, 10), 1) == FRIDAY


def test_a_schedule_by_hand() -> None:
    """Two hours, 16 hours to dry (10:00 and 16 h is 2:00), then one hour not left over night: day 2 at 8:00."""
    schedule = schedule_of([step(1, 120), step(2, 60, After(1, 16 * 60, "primer"), whole=True)], begin=date(2027, 1, 4))
    assert str(schedule.steps[1].start) == "Tue 05 Jan 08:00"
    assert (schedule.days, schedule.proven, schedule.critical) == (2, True, (1, 2))


def test_a_whole_step_waits_for_the_morning_and_others_go_on_over_night() -> None:
    assert schedule_of([step(1, 420), step(2, 120, After(1), whole=True)]).length == 480 + 120
    assert schedule_of([step(1, 420), step(2, 120, After(1))]).length == 540


def test_late_is_told_in_days() -> None:
    schedule = schedule_of([step(1, 8 * 60 * 3)], begin=FRIDAY, due=date(2027, 1, 11))
    assert (schedule.finish_date, schedule.margin) == (date(2027, 1, 12), -1)


def test_two_people_share_work_but_not_a_station() -> None:
    steps = [Step(k, "saw", "", (), (), (), 60, (), (), 1, False, "saw") for k in (1, 2)]
    assert schedule_of(steps, people=2).length == 120
    assert schedule_of([step(1, 60), step(2, 60)], people=2).length == 60


@pytest.mark.parametrize("people", [0, 9])
def test_people_that_cannot_be(people: int) -> None:
    with pytest.raises(PlanError, match="people cannot be planned with"):
        schedule_of([step(1, 10)], people=people)


def test_hours_and_steps_that_cannot_be() -> None:
    with pytest.raises(PlanError, match="working hours"):
        schedule_of([step(1, 10)], hours=WorkingHours(hours=0.0))
    with pytest.raises(PlanError, match="no day of the week"):
        schedule_of([step(1, 10)], hours=WorkingHours(weekdays=()))
    with pytest.raises(PlanError, match="no steps"):
        schedule_of([])
    with pytest.raises(PlanError, match="waits for step 7"):
        schedule_of([step(1, 10, After(7))])
