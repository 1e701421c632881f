"""subassemblies and progress: what they come to, and what is told of wrong ones."""

from __future__ import annotations

from datetime import datetime

import pytest

from fitwright.job import Job, JobFileError, parse_job
from fitwright.job.progress import Progress

BASE = """
job: {name: Rack, unit: mm}
stock: {frame: round tube 25 x 2 mm, board: board 18 x 95 pine}
parts:
  hoop: {stock: frame, path: [[0, 0, 0], [0, 0, 900], [600, 0, 900], [600, 0, 0]], radius: 75, repeat: {y: [0, 400]}}
  base: {stock: frame, path: [[0, 0, 100], [600, 0, 100], [600, 400, 100], [0, 400, 100]], closed: true}
  shelf: {slats: board, from: [0, 0, 500], to: [600, 400, 500], gap: 6}
"""


def job(more: str) -> Job:
    return parse_job(BASE + more)


def mistakes(more: str) -> str:
    with pytest.raises(JobFileError) as caught:
        job(more)
    return str(caught.value)


def test_subassemblies_are_kept_in_the_order_written() -> None:
    found = job(
        "subassemblies:\n  sides: {parts: [hoop 1, hoop 2], up: back, flip: never}\n"
        "  all: {parts: [sides, base, base leg 4]}\n"
    ).subassemblies
    assert [one.name for one in found] == ["sides", "all"]
    assert (found[0].parts, found[0].up, found[0].flip) == (("hoop 1", "hoop 2"), "back", "never")
    assert (found[1].parts, found[1].up) == (("sides", "base", "base leg 4"), "")


@pytest.mark.parametrize(
    ("parts", "told"),
    [
        (
            "[hop]",
            '"hop" is neither a part, nor one of its copies, nor a subassembly before this one; did you mean hoop?',
        ),
        ("[hoop 3]", '"hoop 3": there are 2 of hoop'),
        ("[base 1]", '"base 1": there is one base only: leave the number out'),
        ("[base leg 5]", '"base leg 5": each base has 4 legs'),
        ("[hoop 1 leg 1]", '"hoop 1 leg 1": hoop has no mitred corner: leave the leg out'),
        ("[shelf]", '"shelf" is not put together on the bench: name members only'),
        ("[later]", '"later" is neither a part'),
        ("[]", "at least 1"),
    ],
)
def test_a_part_that_is_not_there_is_told(parts: str, told: str) -> None:
    said = mistakes(f"subassemblies:\n  sides: {{parts: {parts}}}\n  later: {{parts: [hoop]}}\n")
    assert told in said
    assert "line 9" in said


def test_a_subassembly_may_not_be_called_like_a_part() -> None:
    assert '"hoop" is a part already' in mistakes("subassemblies: {hoop: {parts: [hoop]}}\n")


def test_a_side_that_is_none_is_told_with_those_that_are() -> None:
    said = mistakes("subassemblies: {sides: {parts: [hoop], up: bak, flip: soon}}\n")
    assert "accepted: top, bottom, front, back, left, right" in said
    assert "accepted: when tacked, when welded, never" in said


def test_progress_is_read_with_dates_and_times() -> None:
    found = job(
        "progress:\n  - {step: bend A1, hours: 0.5, since: 2027-02-03 09:10, done: 2027-02-04}\n  - {step: weld}\n"
    ).progress
    assert found[0] == Progress("bend A1", 0.5, datetime(2027, 2, 3, 9, 10), datetime(2027, 2, 4), line=9)
    assert found[1] == Progress("weld", line=10)


def test_a_running_timer_goes_on_whatever_the_clock_does() -> None:
    one = Progress("weld", 0.5, datetime(2027, 2, 3, 9, 0))
    assert one.hours_at(datetime(2027, 2, 3, 10, 30)) == pytest.approx(2.0)
    assert one.hours_at(datetime(2027, 2, 3, 8, 0)) == 0.5  # a clock set back takes nothing away
    assert Progress("weld", 0.5).hours_at(datetime(2027, 2, 3, 10, 30)) == 0.5


@pytest.mark.parametrize(
    ("entry", "told"),
    [
        ("{step: weld, hours: -1}", "0 to 10000 is accepted"),
        ("{step: weld, since: soon}", '"soon" is not a date and time: write 2027-02-03 09:10, or the day alone'),
        ("{hours: 1}", "step"),
    ],
)
def test_wrong_progress_is_told(entry: str, told: str) -> None:
    assert told in mistakes(f"progress:\n  - {entry}\n")


def test_a_step_is_kept_once() -> None:
    assert "stands in line 9 already" in mistakes("progress:\n  - {step: weld}\n  - {step: weld, hours: 2}\n")
