"""space.route: every kind of obstacle with its defaults, and mistakes at their own lines."""

from __future__ import annotations

import math

import pytest

from fitwright.job import Job, JobFileError, parse_job
from fitwright.job.obstacles import Corner, Corridor, Door, Lift, Stairs, Step, Van
from fitwright.units import INCH

HEAD = """job: {name: Example, unit: inch}
dims: {gap: 2}
stock: {frame: round tube 1 x 16 ga}
parts: {hoop: {stock: frame, path: [[0, 0, 0], [0, 0, 9]]}}
space:
  route:
"""
ALL = """
    - van: the van
      door_width: 58
      door_height: 68
      length: 10'
      width: 66
      height: 70
      arches: {apart: 52, height: 10}
    - step: kerb
      height: 5
    - door: front door
      width: 33 1/2
      height: 80
      swing: gap
      before: 72
    - corridor: hall
      width: 40
      height: 96
      length: 14'
    - corner: end of the hall
      width: 40
      onward: 38
      height: 96
    - stairs: to the loft
      width: 36
      headroom: 80
      rise: 7 1/2
      run: 10
      steps: 12
      landing: {length: 38, width: 40, after: 6, turn: 180, gap: 4}
    - lift: goods lift
      door_width: 36
      door_height: 84
      width: 48
      depth: 60
      height: 90
      load: 1000 lb
      spare: 1 1/2
"""


def job(route: str) -> Job:
    return parse_job(HEAD + route.lstrip("\n"))


def mistakes(route: str) -> list[str]:
    with pytest.raises(JobFileError) as wrong:
        job(route)
    return [str(one) for one in wrong.value.mistakes]


def test_every_kind_is_read() -> None:
    van, step, door, hall, corner, stairs, lift = job(ALL).space.route
    assert isinstance(van, Van)
    assert van.arches == pytest.approx((52 * INCH, 10 * INCH))
    assert van.length == pytest.approx(120 * INCH)
    assert isinstance(step, Step)
    assert isinstance(door, Door)
    assert door.clear == pytest.approx(31.5 * INCH)
    assert door.before == pytest.approx(72 * INCH)
    assert door.after is None
    assert isinstance(hall, Corridor)
    assert isinstance(corner, Corner)
    assert (corner.first, corner.second) == pytest.approx((40 * INCH, 38 * INCH))
    assert isinstance(stairs, Stairs)
    assert stairs.landing is not None
    assert stairs.landing.after == 6
    assert stairs.landing.turn == pytest.approx(math.pi)
    assert isinstance(lift, Lift)
    assert lift.load == pytest.approx(453.59237)


def test_what_is_not_said_is_the_usual() -> None:
    van, _, door, _, corner, *_, lift = job(ALL).space.route
    assert isinstance(van, Van)
    assert isinstance(door, Door)
    assert isinstance(corner, Corner)
    assert van.bed == pytest.approx(24 * INCH)
    assert door.jamb == pytest.approx(4.75 * INCH)
    assert corner.turn == pytest.approx(math.pi / 2)
    assert (door.spare, lift.spare) == pytest.approx((INCH, 1.5 * INCH))


def test_no_route_is_an_empty_one() -> None:
    assert job("    []").space.route == ()


def test_a_kind_misspelt_is_told_with_the_right_word() -> None:
    (told,) = mistakes("    - coridor: hall\n      width: 40\n      height: 90\n      length: 100\n")
    assert "line 7" in told
    assert "did you mean corridor?" in told


@pytest.mark.parametrize(
    ("before", "after", "said"),
    [
        ("turn: 180", "turn: 45", "45 is not a turn of a landing"),
        ("after: 6", "after: 12", "none are left above it"),
        ("swing: gap", "swing: 34", "the leaf leaves nothing of the width"),
        ("rise: 7 1/2", "rise: -2", "more than 0"),
        ("      onward: 38\n", "      onward: 38\n      turn: 170\n", "a corner turns by 10 to 135 degrees"),
        ("load: 1000 lb", "load: 1000", "has no unit"),
    ],
)
def test_what_cannot_be_is_told_where_it_stands(before: str, after: str, said: str) -> None:
    (told,) = mistakes(ALL.replace(before, after))
    assert said in told
    line = next(
        number for number, text in enumerate((HEAD + ALL.lstrip("\n")).splitlines(), 1) if before.strip() in text
    )
    assert f"line {line + ('turn: 170' in after)}," in told


def test_a_route_is_not_endless() -> None:
    (told,) = mistakes("    - {step: kerb, height: 5}\n" * 31)
    assert "at most 30" in told
