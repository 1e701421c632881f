from __future__ import annotations

import pytest

from fitwright.job import JobFileError, parse_job
from fitwright.job.model import Dim

HEAD = "job: {name: a, unit: inch}\nstock: {frame: round tube 1 1/8 x 14 ga}\n"
PATH = "parts: {a: {stock: frame, path: [[0, 0, 0], [0, 0, %s]]}}\n"


def dims(text: str, top: str = "20") -> dict[str, Dim]:
    return dict(parse_job(f"{HEAD}{PATH % top}dims: {text}\n").dims)


def told(text: str) -> list[str]:
    with pytest.raises(JobFileError) as error:
        dims(text)
    return [f"{mistake.where}: {mistake.what}" for mistake in error.value.mistakes]


def test_dims_may_use_others_in_any_order() -> None:
    found = dims("{pitch: (height - 22) / shelves, height: 74, shelves: 4}", top="pitch")
    assert found["pitch"].value == pytest.approx(13 * 25.4)
    assert found["pitch"].uses == ("height", "shelves")
    assert found["pitch"].text == "(height - 22) / shelves"


def test_what_is_used_as_a_length_is_one_and_so_is_what_it_comes_from() -> None:
    found = dims("{pitch: (height - 22) / shelves, height: 74, shelves: 4, spare: 3}", top="pitch")
    assert [found[name].is_length for name in ("pitch", "height", "shelves", "spare")] == [True, True, False, False]
    assert found["height"].value == pytest.approx(74 * 25.4)
    assert found["shelves"].value == 4


def test_a_unit_makes_a_length_without_any_use() -> None:
    found = dims("{a: 10 mm, b: a * 2, c: frame.od, d: a / b}")
    assert [(found[name].is_length, found[name].value) for name in "abc"] == [(True, 10), (True, 20), (True, 28.575)]
    assert (found["d"].is_length, found["d"].value) == (False, 0.5)


def test_a_circle_is_told_whole_once() -> None:
    assert told("{z: 1, a: b + z, b: c, c: a * 2, d: a}") == [
        "dims.a: these dims go round in a circle: a -> b -> c -> a"
    ]
    assert told("{a: a + 1}") == ["dims.a: a is worked out from itself"]


def test_two_circles_are_both_told() -> None:
    assert len(told("{a: b, b: a, c: d, d: c}")) == 2


def test_a_dim_behind_a_wrong_one_is_not_told_again() -> None:
    assert told("{a: 3 +, b: a + 1, c: b * 2}") == ["dims.a: a number or a dim is missing at the end"]


def test_unknown_names_get_the_nearest() -> None:
    with pytest.raises(JobFileError) as error:
        dims("{height: 74, a: hieght - 1, b: frme.od, c: frame.wal, d: frame}")
    assert [mistake.nearest for mistake in error.value.mistakes] == ["height", "frame", "wall", None]
    assert "frame.od" in error.value.mistakes[3].accepted


def test_an_area_is_no_length() -> None:
    with pytest.raises(JobFileError, match="is an area; a length belongs here"):
        dims("{a: 10 mm, b: 20 mm}", top="a * b")


def test_two_bare_lengths_multiplied_are_an_area_when_their_use_shows_them_to_be_lengths() -> None:
    with pytest.raises(JobFileError, match=r"width \* depth is a length times a length"):
        dims(
            "{width: 31, depth: 19, edge: width + 1 in, side: depth - 1 in, rim: edge + side}",
            top="rim + width * depth",
        )


def test_a_bare_product_with_a_count_is_a_length() -> None:
    assert dims("{pitch: 5, shelves: 3}", top="pitch * shelves")["pitch"].value == pytest.approx(127)


def test_the_column_is_that_of_the_fault() -> None:
    with pytest.raises(JobFileError) as error:
        parse_job(f"{HEAD}{PATH % 20}dims:\n  a: 3 + bb\n  b: '3 + bb'\n")
    assert [(mistake.line, mistake.column) for mistake in error.value.mistakes] == [(5, 10), (6, 11)]


@pytest.mark.parametrize("name", ["in", "mm", "min", "A", "1a", "a-b", "deg"])
def test_names_that_no_dim_may_have(name: str) -> None:
    assert len(told(f"{{{name}: 3}}")) == 1
