from __future__ import annotations

import pytest

from fitwright.job import JobFileError, parse_job
from fitwright.job.model import Along, Around, MemberSpec, Mirror, Placing, Slanted

FILE = """job: {name: Test, unit: mm}
stock:
  tube: round tube 30 x 2
  angle: angle 30 x 30 x 3
  flat: flat 40 x 5
  board: board 20 x 95 oak
  ply: plywood 18 mm birch
dims: {width: 800, depth: 400, height: 1800, shelves: 3}
"""


def placed(keys: str) -> tuple[Placing, ...]:
    """The placings of a member with some keys."""
    spec = parse_job(f"{FILE}parts: {{part: {{stock: tube, path: [[0, 0, 0], [0, 0, 100]], {keys}}}}}\n").parts[0]
    assert isinstance(spec, MemberSpec)
    return spec.placings


def test_offsets_as_listed() -> None:
    assert placed("repeat: {y: [0, depth]}") == (Along(1, (0, 400)),)


def test_even_steps_from_nothing_or_from_somewhere() -> None:
    assert placed("repeat: {z: {every: 250, count: shelves}}") == (Along(2, (0, 250, 500)),)
    assert placed("repeat: {x: {from: 10, every: -5, count: 3}}") == (Along(0, (10, 5, 0)),)


def test_even_steps_on_a_slant() -> None:
    assert placed("repeat: {slanted: {every: [0, 75, depth], count: shelves + 2}}") == (Slanted((0, 75, 400), 5),)
    assert placed("repeat: {around: {centre: [1, 2], count: 3}, slanted: {every: [1, 0, 1], count: 2}, x: [0, 9]}") == (
        Along(0, (0, 9)),
        Slanted((1, 0, 1), 2),
        Around(1, 2, 3),
    )


def test_repeats_come_first_x_y_z_then_around_then_mirrors() -> None:
    keys = "mirror: {y: depth / 2, x: width / 2}, repeat: {around: {centre: [1, 2], count: 3}, z: [0, 9], x: [0, 1]}"
    assert placed(keys) == (Along(0, (0, 1)), Along(2, (0, 9)), Around(1, 2, 3), Mirror(0, 400), Mirror(1, 200))


@pytest.mark.parametrize(
    ("keys", "says"),
    [
        ("repeat: {x: {every: 1, count: 1001}}", "1 to 1000"),
        ("repeat: {x: {every: 1, count: 100}, y: {every: 1, count: 100}}", "10,000 copies; at most 1,000"),
        ("repeat: {x: {every: 1, count: 600}}, mirror: {x: 0}", "1,200 copies"),
        ("repeat: {x: []}", "0 offsets"),
        ("repeat: {slanted: {every: [0, 1, 1], count: 600}}, mirror: {x: 0}", "1,200 copies"),
        ("repeat: {slanted: {every: [0, 1], count: 6}}", "a point [x, y, z]"),
        ("repeat: {around: {centre: [1, 2, 3], count: 3}}", "a point on plan"),
    ],
)
def test_too_many_or_none(keys: str, says: str) -> None:
    with pytest.raises(JobFileError) as error:
        placed(keys)
    assert says in str(error.value)
