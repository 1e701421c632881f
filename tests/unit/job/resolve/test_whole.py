from __future__ import annotations

import pytest

from fitwright.job import Job, JobFileError, parse_job
from fitwright.job.model import OpeningSpec

FILE = """job: {name: Test, unit: mm}
stock:
  tube: round tube 30 x 2
  angle: angle 30 x 30 x 3
  flat: flat 40 x 5
  board: board 20 x 95 oak
  ply: plywood 18 mm birch
dims: {width: 800, depth: 400, height: 1800, shelves: 3}
"""

PARTS = """parts:
  post: {stock: tube, path: [[0, 0, 0], [0, 0, 100]]}
  front leg: {stock: tube, path: [[0, 0, 0], [0, 0, 100]]}
"""


def whole(more: str = "", parts: str = PARTS) -> Job:
    return parse_job(f"{FILE}{parts}{more}")


def told(more: str = "", parts: str = PARTS) -> str:
    with pytest.raises(JobFileError) as error:
        whole(more, parts)
    (mistake,) = error.value.mistakes
    return mistake.what


def test_parts_keep_their_names_and_order() -> None:
    assert [part.name for part in whole().parts] == ["post", "front leg"]


def test_stock_by_its_short_name() -> None:
    stock = whole().stock
    assert stock["tube"].label == "round tube 30 x 2 mm"
    assert stock["tube"].key == "tube"


def test_stock_with_its_grade() -> None:
    job = parse_job(
        "job: {name: a, unit: inch}\nstock: {b: {section: lumber 1x2, grade: white pine}}\n"
        "parts: {a: {solid: b, from: [0, 0, 0], to: [1 1/2, 9, 0]}}\n"
    )
    assert job.stock["b"].material.name == "eastern white pine"


def test_a_joint_between_parts_and_between_copies_of_one() -> None:
    joints = whole(
        "joints:\n  - {between: [post, front leg], how: through}\n"
        "  - {between: [post, post], how: butt, sleeve: tube, length: 80}\n"
    ).joints
    assert [joint.between for joint in joints] == [("post", "front leg"), ("post", "post")]
    assert (joints[0].kind, joints[0].where.line) == ("through", 13)
    assert joints[1].sleeve is not None
    assert joints[1].length == 80


def test_an_opening_to_keep_clear_in_any_order_of_corners() -> None:
    spec = whole(parts=PARTS + "  bin: {opening: {from: [9, 0, 5], to: [0, 8, 1]}}\n").parts[2]
    assert isinstance(spec, OpeningSpec)
    assert (spec.low, spec.high) == ((0, 0, 1), (9, 8, 5))


def test_finish_and_readings_come_in_their_order() -> None:
    job = whole("finish: {steel: black}\nreadings: [{of: height of foot 2, is: 3}, {of: paint thickness, is: 80 µm}]\n")
    assert job.finish == {"steel": "black"}
    assert [str(reading.of) for reading in job.readings] == ["height of foot 2", "paint thickness"]


@pytest.mark.parametrize(
    ("more", "says"),
    [
        ("joints: [{between: [post, pots], how: lap}]", "not the name of a part"),
        ("joints: [{between: [post, post], how: lapp}]", "not a word for this"),
        ("readings: 3", "a list in [ ] belongs here"),
        ("photo: 3", "keys with values belong here"),
        ("finish: black", "keys with values belong here"),
    ],
)
def test_what_a_file_cannot_say(more: str, says: str) -> None:
    assert says in told(more + "\n")


@pytest.mark.parametrize(
    ("name", "says"), [("a.b", "is not a name"), ("push", "the word for a push"), ("a" * 41, "41 characters")]
)
def test_names_that_no_part_may_have(name: str, says: str) -> None:
    assert says in told(parts=f"parts: {{{name}: {{stock: tube, path: [[0, 0, 0], [0, 0, 1]]}}}}\n")


def test_an_opening_without_room() -> None:
    assert "an opening is a box" in told(parts="parts: {bin: {opening: {from: [0, 0, 0], to: [1, 1, 0]}}}\n")


def test_wrong_stock_is_told_once_however_often_it_is_used() -> None:
    text = FILE.replace("round tube 30", "rund tube 30") + PARTS + "brief: {use: a}\n"
    with pytest.raises(JobFileError) as error:
        parse_job(text)
    (mistake,) = error.value.mistakes
    assert (mistake.where, mistake.line) == ("stock.tube", 3)
