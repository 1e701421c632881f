from __future__ import annotations

import math

import pytest

from fitwright.job import JobFileError, parse_job
from fitwright.job.model import Measured, Opening, Skirting, Space

FILE = """job: {name: Test, unit: mm}
stock:
  tube: round tube 30 x 2
  angle: angle 30 x 30 x 3
  flat: flat 40 x 5
  board: board 20 x 95 oak
  ply: plywood 18 mm birch
dims: {width: 800, depth: 400, height: 1800, shelves: 3}
"""

PARTS = "parts: {post: {stock: tube, path: [[0, 0, 0], [0, 0, 100]]}}\n"


def space(text: str) -> Space:
    """The space section of a text."""
    return parse_job(f"{FILE}{PARTS}space: {{{text}}}\n").space


def opening(text: str) -> Opening:
    found = space(f"opening: {{{text}}}").opening
    assert found is not None
    return found


def told(text: str) -> str:
    with pytest.raises(JobFileError) as error:
        space(text)
    (mistake,) = error.value.mistakes
    return mistake.what


def test_without_the_section_there_is_no_opening() -> None:
    assert parse_job(FILE + PARTS).space == Space()


def test_one_size_stands_at_the_floor() -> None:
    assert opening("width: width + 20").widths == ((0, 820),)


def test_three_sizes_stand_at_bottom_middle_and_top() -> None:
    found = opening("width: [820, 822, 824], height: 2000, depth: [1, 2, 3]")
    assert found.widths == ((0, 820), (1000, 822), (2000, 824))
    assert found.depths == ((0, 1), (1000, 2), (2000, 3))
    assert found.tops == ((0, 2000),)


def test_three_heights_stand_over_the_least_width() -> None:
    found = opening("width: [820, 822, 824], height: [2000, 2010, 2005]")
    assert found.tops == ((0, 2000), (410, 2010), (820, 2005))
    assert found.widths[2] == (2000, 824)


def test_sizes_anywhere() -> None:
    assert opening("width: [{at: 100, is: 820}, {at: 900, is: 815}]").widths == ((100, 820), (900, 815))


def test_lean_gaps_walls() -> None:
    found = space(
        "opening: {lean: {left: -3, back: 2}}, clear: {left: 10, top: 0}, stand: {left: 12}, walls: {back: depth}"
    )
    assert found.opening is not None
    assert found.opening.lean == {"left": -3, "back": 2}
    assert (found.clear, found.stand, found.walls) == ({"left": 10, "top": 0}, {"left": 12}, {"back": 400})


def test_a_neighbour() -> None:
    (found,) = space("neighbours: {bench: {side: left, height: 900, match: {height: height / 2}}}").neighbours
    assert (found.name, found.side, found.height, found.depth) == ("bench", "left", 900, None)
    assert (found.match, found.within, found.where.name) == ({"height": 900}, 3, "space.neighbours.bench")


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("opening: {width: [1, 2], height: 9}", "a list of sizes has three"),
        ("opening: {width: [1, {at: 3, is: 4}], height: 9}", "a list of sizes has three"),
        ("opening: {width: [1, 2, 3]}", "need the opening's height"),
        ("opening: {width: 0}", "more than 0.0 mm"),
        ("opening: {wide: 3}", "not a key here"),
        ("clear: {left: -1}", "at least 0.0 mm"),
        ("neighbours: {bench: {side: top}}", "not a word for this"),
        ("neighbours: {bench: {side: left, match: {depth: 3}}}", "give the neighbour's own depth too"),
    ],
)
def test_what_a_space_cannot_be(text: str, says: str) -> None:
    assert says in told(text)


def test_a_wrong_size_is_told_once() -> None:
    assert "not a dim" in told("opening: {height: [hieght, 1, 2], width: [800, 801, 802]}")


def test_sizes_may_say_where_and_how_nearly() -> None:
    found = opening("width: [{at: 0, is: 820, station: 50, within: 2}, {at: 0, is: 815, station: 400}], depth: 500")
    assert found.measures[0] == Measured("width", 0.0, 820.0, 50.0, 2.0)
    assert found.measures[2] == Measured("depth", 0.0, 500.0)
    assert found.widths == ((0, 815),)  # the smallest at a height, for whoever asks for one alone


def test_a_plan_has_its_lengths_by_name() -> None:
    sides = "front: 800, back: 801, left: 400, right: 402"
    found = opening(f"plan: {{{sides}, diagonals: [894, 896], at: 100}}").plan
    assert found is not None
    assert found.at == 100.0
    assert found.lengths == {
        "front": 800, "back": 801, "left": 400, "right": 402,
        "front left to back right": 894, "front right to back left": 896,
    }  # fmt: skip
    alone = opening(f"plan: {{{sides}, diagonals: [894]}}").plan
    assert alone is not None
    assert len(alone.lengths) == 5


@pytest.mark.parametrize("diagonal", [300, 1190])
def test_a_diagonal_that_makes_no_corner_of_a_room_is_refused(diagonal: int) -> None:
    """At 30 degrees the third side over 800 and 400 is 496 mm, at 150 degrees 1164 mm: the law of cosines."""
    sides = "front: 800, back: 802, left: 400, right: 400"
    assert told(f"opening: {{plan: {{{sides}, diagonals: [894, {diagonal}]}}}}") == (
        "with a front side of 800.0 mm and a left side of 400.0 mm a diagonal is 495.5 mm to 1163.5 mm: "
        "measure all three again"
    )


def test_skew_needs_sizes_and_no_plan() -> None:
    assert opening("width: 800, depth: 400, skew: {left: 4, back: -2}").skew == {"left": 4, "back": -2}
    assert "width and depth" in told("opening: {width: 800, skew: {left: 4}}")
    plan = "plan: {front: 800, back: 800, left: 400, right: 400, diagonals: [894]}"
    assert "leave out skew" in told(f"opening: {{width: 800, depth: 400, skew: {{left: 4}}, {plan}}}")


def test_the_floor_and_what_goes_with_it() -> None:
    found = space("floor: [{at: [0, 0], is: 0}, {at: [width, 0], is: -3}], uneven: 2, level: 4, aisle: 900, within: 2")
    assert found.floor == (((0, 0), 0), ((800, 0), -3))
    assert (found.uneven, found.level, found.aisle, found.within) == (2, 4, 900, 2)


def test_skirting_and_cleaning() -> None:
    found = space("skirting: {height: 90, thickness: 15, on: [left, back, left]}, clean: {below: 100}")
    assert found.skirting == Skirting(90, 15, ("left", "back"))
    assert found.clean == {"below": 100}
    assert "is not a word for this" in told("skirting: {height: 90, thickness: 15, on: [ceiling]}")


def test_things_by_corners_and_on_walls() -> None:
    pipe, outlet = space(
        "things: {pipe: {from: [30, 400, 0], to: [0, 380, 2000]}, "
        "outlet: {on: back, at: [100, 300], size: [80, 70, 10], reach: front, room: 60}}"
    ).things
    assert (pipe.low, pipe.high, pipe.on, pipe.reach) == ((0, 380, 0), (30, 400, 2000), None, None)
    assert (outlet.low, outlet.high, outlet.on) == ((100, 300, 0), (180, 370, 10), "back")
    assert (outlet.reach, outlet.room) == ("front", 60)


@pytest.mark.parametrize(
    ("thing", "expected"),
    [
        ("{from: [0, 0, 0]}", "give from and to"),
        ("{on: back, at: [0, 0]}", "give from and to"),
        ("{from: [0, 0, 0], to: [1, 1, 1], on: left, at: [0, 0], size: [1, 1, 1]}", "give from and to"),
        ("{from: [0, 0, 0], to: [9, 9, 9], room: 50}", "reach"),
        ("{on: back, at: [0, 0], size: [10, 10, 0]}", "more than"),
    ],
)
def test_things_that_are_no_box(thing: str, expected: str) -> None:
    assert expected in told(f"things: {{it: {thing}}}")


def test_doors() -> None:
    usual, own = space(
        "opening: {height: 2100}, doors: {one: {hinge: [820, 0], width: 700, shut: right, opens: front}, "
        "other: {hinge: [0, -50], width: 600, height: 1900, thickness: 35, shut: back, opens: left, turns: 120}}"
    ).doors
    assert (usual.height, usual.thickness) == (2100, 40)
    assert usual.turns == pytest.approx(math.pi / 2)
    assert (own.hinge, own.height, own.thickness) == ((0, -50), 1900, 35)
    assert own.turns == pytest.approx(2 * math.pi / 3)
    assert "square to that" in told("doors: {it: {hinge: [0, 0], width: 700, shut: right, opens: left}}")
    assert "1 to 180" in told("doors: {it: {hinge: [0, 0], width: 700, shut: right, opens: front, turns: 270}}")
