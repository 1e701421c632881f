"""How steps stand: done, under way, ready, waiting by the clock, or for others."""

from __future__ import annotations

from datetime import datetime, timedelta

from fitwright.job.progress import Progress
from fitwright.making.plan import After, Step
from fitwright.web.pages.steps.standing import Standing, next_of, standings

NOW = datetime(2027, 2, 3, 10, 0).astimezone()


def step(number: int, *after: After) -> Step:
    return Step(number, "saw", f"step {number}", (), (), (), 10, (), after, key=f"step {number}")


STEPS = (step(1), step(2, After(1, 120, "primer to dry")), step(3, After(2)), step(4))


def stand(*progress: Progress, now: datetime = NOW) -> tuple[Standing, ...]:
    return standings(STEPS, progress, now)


def states(*progress: Progress, now: datetime = NOW) -> list[str]:
    return [one.state for one in stand(*progress, now=now)]


def test_what_waits_for_nothing_is_ready() -> None:
    assert states() == ["ready", "later", "later", "ready"]
    assert stand()[1].open == (1,)


def test_a_wait_runs_by_the_clock_from_when_it_was_ticked_off() -> None:
    done = Progress("step 1", done=datetime(2027, 2, 3, 9, 0))
    drying = stand(done)[1]
    assert (drying.state, drying.why) == ("waiting", "primer to dry")
    assert drying.until == datetime(2027, 2, 3, 11, 0).astimezone()
    assert states(done, now=NOW + timedelta(hours=1)) == ["done", "ready", "later", "ready"]


def test_a_timer_tells_the_seconds() -> None:
    one = stand(Progress("step 4", 0.5, NOW - timedelta(minutes=30)))[3]
    assert (one.state, one.running, one.seconds) == ("under way", True, 3600)


def test_what_is_begun_early_is_under_way_all_the_same() -> None:
    assert states(Progress("step 3", since=NOW))[2] == "under way"


def test_next_is_what_is_under_way_else_the_first_of_the_schedule() -> None:
    first = next_of(stand(), [4, 1, 2, 3])
    assert first is not None
    assert first.step.number == 4
    under_way = next_of(stand(Progress("step 1", since=NOW)), [4, 1, 2, 3])
    assert under_way is not None
    assert under_way.step.number == 1
    assert next_of(stand(*(Progress(one.key, done=NOW - timedelta(days=9)) for one in STEPS)), [1, 2, 3, 4]) is None


def test_done_when_nobody_said_where_in_the_world_is_local_time() -> None:
    assert stand(Progress("step 1", done=datetime(2027, 2, 3)))[1].state == "ready"
