from __future__ import annotations

import pytest

from fitwright.job import JobFileError, parse_job
from fitwright.job.model import Opening, Space

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
