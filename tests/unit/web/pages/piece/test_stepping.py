"""Steps are the shop's, on their grid."""

from __future__ import annotations

from fractions import Fraction

import pytest

from fitwright.job.model import Dim
from fitwright.units import Style
from fitwright.web.errors import NotTaken
from fitwright.web.pages.piece.stepping import can_step, stepped

LENGTH = Dim("width", "", 0.0, True, (), 1)
COUNT = Dim("shelves", "", 0.0, False, (), 1)


@pytest.mark.parametrize(
    ("text", "up", "style", "moved"),
    [
        ("31 1/2", True, Style.inch(), "31 9/16"),
        ("31 1/2", False, Style.inch(), "31 7/16"),
        ("31.53", True, Style.inch(), "31 9/16"),
        ("31.53", False, Style.inch(), "31 1/2"),
        ("31 1/2", True, Style.inch(Fraction(1, 32)), "31 17/32"),
        ('31 1/2"', True, Style.inch(), '31 9/16"'),
        ("0", False, Style.inch(), "-1/16"),
        ("450", True, Style.metric(), "450.5"),
        ("450 mm", True, Style.metric(), "450.5 mm"),
        ("800.3 mm", False, Style.metric(), "800.0 mm"),
    ],
)
def test_a_length_moves_to_the_next_step(text: str, up: bool, style: Style, moved: str) -> None:
    assert stepped(text, LENGTH, up, style) == moved


def test_a_step_there_and_back_is_where_it_was() -> None:
    text = "31 1/2"
    for up in (True, True, False, False):
        text = stepped(text, LENGTH, up, Style.inch())
    assert text == "31 1/2"


def test_a_count_moves_by_one() -> None:
    assert stepped("4", COUNT, True, Style.inch()) == "5"
    assert stepped("4", COUNT, False, Style.inch()) == "3"


def test_arithmetic_has_no_steps() -> None:
    assert not can_step("width / 2", True, Style.inch())
    assert not can_step("shelves + 1", False, Style.inch())
    with pytest.raises(NotTaken, match="worked out"):
        stepped("width / 2", LENGTH, True, Style.inch())
