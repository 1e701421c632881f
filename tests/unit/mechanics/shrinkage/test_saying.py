from __future__ import annotations

import numpy as np
import pytest

from fitwright.mechanics.shrinkage import Spread, in_style
from fitwright.mechanics.shrinkage.measures import Measure
from fitwright.mechanics.shrinkage.saying import said
from fitwright.units import Style

FEET = Measure("open ends", "the open ends of A1", np.zeros((1, 3)), 800.0, "spread", "pull in")


@pytest.mark.parametrize(
    ("change", "words"),
    [
        (Spread(-0.75, 0.2), "the open ends of A1 pull in by 0.4 to 1.1 mm"),
        (Spread(0.75, 0.2), "the open ends of A1 spread by 0.4 to 1.1 mm"),
        (Spread(-0.5, 0.6), "the open ends of A1 pull in by up to 1.5 mm, or spread by up to 0.5 mm"),
        (Spread(-0.5, 0.31), "the open ends of A1 pull in by up to 1.0 mm"),
    ],
)
def test_a_change_in_words(change: Spread, words: str) -> None:
    assert said(FEET, change) == words


def test_the_rock_has_no_direction() -> None:
    rock = Measure(
        "rock", "the fourth open end", np.zeros((1, 3)), 900.0, "stands off the floor", "stands off the floor"
    )
    assert said(rock, Spread(-0.2, 0.1)) == "the fourth open end stands off the floor by up to 0.4 mm"


def test_small_lengths_in_either_unit() -> None:
    assert in_style(2.54, Style.inch()) == "0.10 in"
    assert in_style(2.54, None) == "2.5 mm"
    assert [in_style(mm, Style.inch()) for mm in (0.1, 0.0)] == ["0.004 in", "0.00 in"]
    assert in_style(0.06, Style.metric()) == "0.06 mm"
