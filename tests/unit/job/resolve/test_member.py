from __future__ import annotations

import pytest

from fitwright.job import JobFileError, parse_job
from fitwright.job.model import Butt, Drawn, End, MemberSpec

FILE = """job: {name: Test, unit: mm}
stock:
  tube: round tube 30 x 2
  angle: angle 30 x 30 x 3
  flat: flat 40 x 5
  board: board 20 x 95 oak
  ply: plywood 18 mm birch
dims: {width: 800, depth: 400, height: 1800, shelves: 3}
"""


def member(keys: str) -> MemberSpec:
    """The member of some keys; a straight path of 100 mm unless they say one."""
    line = "" if any(key in keys for key in ("path:", "outside:", "ring:")) else ", path: [[0, 0, 0], [0, 0, 100]]"
    stock = "" if "stock:" in keys else "stock: tube, "
    spec = parse_job(f"{FILE}parts: {{part: {{{stock}{keys}{line}}}}}\n").parts[0]
    assert isinstance(spec, MemberSpec)
    return spec


def told(keys: str) -> str:
    """What is wrong with a member of some keys, when one thing is."""
    with pytest.raises(JobFileError) as error:
        member(keys)
    (mistake,) = error.value.mistakes
    return mistake.what


def test_a_straight_member_has_no_radii_and_ends_that_are_found() -> None:
    spec = member("fastened: welded")
    assert spec.points == ((0, 0, 0), (0, 0, 100))
    assert spec.radii == (0, 0)
    assert (spec.drawn, spec.closed, spec.ring, spec.follows) == (Drawn.CENTRE, False, False, "centre")
    assert spec.ends == (End.AUTO, End.AUTO)
    assert spec.butt == Butt()
    assert (spec.name, spec.where.name, spec.where.line) == ("part", "parts.part", 9)


def test_one_radius_is_for_every_corner_but_not_for_the_open_ends() -> None:
    path = "path: [[0, 0, 0], [0, 0, height], [width, 0, height], [width, 0, 0]]"
    assert member(f"{path}, radius: 100").radii == (0, 100, 100, 0)
    assert member(f"{path}, radius: 4 in").radii == (0, 101.6, 101.6, 0)
    assert member(f"{path}, radius: [100, 0]").radii == (0, 100, 0, 0)
    assert member(f"{path}, radius: 100, closed: true").radii == (100,) * 4
    assert member(f"{path}, corners: mitred").radii == (0, 0, 0, 0)


def test_outside_is_kept_as_drawn() -> None:
    spec = member("outside: [[0, 0, 0], [0, 0, 100], [100, 0, 100]]")
    assert spec.drawn is Drawn.OUTSIDE
    assert spec.points[2] == (100, 0, 100)


@pytest.mark.parametrize(("axis", "flat"), [("x", 0), ("y", 1), ("z", 2)])
def test_a_ring_is_a_closed_square_bent_by_half_its_side(axis: str, flat: int) -> None:
    spec = member(f"ring: {{centre: [10, 20, 30], diameter: 500, axis: {axis}}}")
    assert spec.ring
    assert spec.closed
    assert spec.radii == (250,) * 4
    centre = (10, 20, 30)
    for point in spec.points:
        away = [abs(a - b) for a, b in zip(point, centre, strict=True)]
        assert away == [0 if k == flat else 250 for k in range(3)]
    assert len(set(spec.points)) == 4
    assert spec == member(f"ring: {{centre: [10, 20, 30], radius: 250, axis: {axis}}}")


def test_ends_in_each_spelling() -> None:
    assert member("ends: square").ends == (End.SQUARE, End.SQUARE)
    assert member("ends: [level, free]").ends == (End.LEVEL, End.FREE)
    assert member("ends: {start: plumb}").ends == (End.PLUMB, End.AUTO)
    assert member("ends: {start: auto, finish: flattened}").ends == (End.AUTO, End.FLATTENED)


def test_angle_follows_its_heel_unless_told_otherwise() -> None:
    spec = member("stock: angle, legs: [right, up]")
    assert spec.follows == "heel"
    assert spec.legs == ((1, 0, 0), (0, 0, 1))
    assert member("stock: angle, follows: centre").follows == "centre"


def test_faces_that_run_on_the_path() -> None:
    assert member("follows: front").follows == ((0, -1, 0),)
    assert member("follows: [left, down]").follows == ((-1, 0, 0), (0, 0, -1))
    assert member("stock: flat, wide: [1, 0, 1]").wide == pytest.approx((2**-0.5, 0, 2**-0.5))


def test_a_butt_with_its_sleeve() -> None:
    spec = member(
        "path: [[0, 0, 0], [300, 0, 0], [300, 300, 0]], closed: true, butt: {at: 25 %, sleeve: flat, length: 60}"
    )
    assert spec.butt.fraction == 0.25
    assert spec.butt.sleeve is not None
    assert spec.butt.sleeve.key == "flat"
    assert spec.butt.length == 60


@pytest.mark.parametrize(
    ("keys", "says"),
    [
        ("stock: tub", "not a short name under stock"),
        ("path: [[0, 0, 0], [0, 0, 0], [0, 0, 5]]", "points 1 and 2 are the same, (0.0 mm, 0.0 mm, 0.0 mm)"),
        ("path: [[0, 0, 0], [9, 0, 0], [9, 9, 0], [0, 0, 0]]", "drop it and write closed: true"),
        ("path: [[0, 0, 0], [9, 0, 0]], closed: true", "at least 3 points"),
        ("path: [[0, 0, 0], [9, 0, 0], [9, 9, 0]], radius: [1, 2]", "2 radii for 1 corners"),
        ("path: [[0, 0, 0], [9, 0, 0], [9, 9, 0]], radius: -1", "at least 0.0 mm"),
        ("path: [[0, 0, 0], [9, 0, 0], [9, 9, 0]], radius: 1, corners: mitred", "keep one of the two"),
        ("ring: {centre: [0, 0, 0]}", "needs the diameter or the radius"),
        ("ring: {centre: [0, 0, 0], radius: 3, diameter: 6}", "not both"),
        ("ring: {centre: [0, 0, 0], radius: 0}", "more than 0.0 mm"),
        ("ring: {centre: [0, 0, 0], radius: 3}, ends: square", "a closed member has no ends"),
        ("butt: {at: 1/2}", "an open member has no butt"),
        ("legs: [right, up]", "legs are for angle"),
        ("stock: angle, legs: [right, left]", "point along one line"),
        ("stock: angle, wide: up", "has no wide side"),
        ("wide: up", "has no wide side"),
        ("follows: heel", "only angle has a heel"),
        ("follows: hell", "not a line of the section"),
        ("stock: flat, wide: [0, 0, 0]", "points nowhere"),
    ],
)
def test_what_a_member_cannot_be(keys: str, says: str) -> None:
    assert says in told(keys)


def test_a_wrong_stock_name_gets_the_nearest() -> None:
    with pytest.raises(JobFileError) as error:
        member("stock: tub")
    assert error.value.mistakes[0].nearest == "tube"
    assert error.value.mistakes[0].accepted[0] == "tube"
