from __future__ import annotations

import pytest

from fitwright.job.model import Point
from fitwright.job.resolve.directions import is_direction, of_word, parallel


@pytest.mark.parametrize(
    ("word", "vector"),
    [
        ("left", (-1, 0, 0)),
        ("right", (1, 0, 0)),
        ("front", (0, -1, 0)),
        ("back", (0, 1, 0)),
        ("up", (0, 0, 1)),
        ("down", (0, 0, -1)),
        ("x", (1, 0, 0)),
        ("-y", (0, -1, 0)),
        ("+z", (0, 0, 1)),
    ],
)
def test_words(word: str, vector: Point) -> None:
    assert is_direction(word)
    assert of_word(word) == vector
    assert str(of_word(word)).count("-0.0") == 0


@pytest.mark.parametrize("word", ["", "w", "--x", "lefty", "-up"])
def test_what_is_no_direction(word: str) -> None:
    assert not is_direction(word)


def test_parallel() -> None:
    assert parallel((1, 0, 0), (-1, 0, 0))
    assert not parallel((1, 0, 0), (0, 1, 0))
