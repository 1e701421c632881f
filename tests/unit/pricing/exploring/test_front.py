"""Which ways none beats."""

from __future__ import annotations

import numpy as np

from fitwright.pricing.exploring import Figures, Point, Tried, best_few, not_beaten
from fitwright.pricing.exploring.front import front_of
from tests.stand import figures


def rows(*told: Figures | None) -> list[Tried]:
    return [Tried(Point(number, str(number), ()), one, "" if one else "no") for number, one in enumerate(told, 1)]


def test_equal_ones_beat_one_another_not() -> None:
    assert front_of(np.array([[1.0, 1.0], [1.0, 1.0]])).tolist() == [True, True]


def test_what_fails_lacks_a_price_or_does_not_work_is_left_out() -> None:
    told = rows(figures(net=900, verdict="fails"), figures(net=None), None, figures(net=1000), figures(give=None))
    assert not_beaten(told) == {4}


def test_by_hand() -> None:
    """The second is dearer and no better than the first; the others are each best at something."""
    told = rows(
        figures(net=1000, give=0.5, mass=10), figures(net=1100, give=0.5, mass=10),
        figures(net=1200, give=0.2, mass=14), figures(net=1300, give=0.9, mass=6),
    )  # fmt: skip
    assert not_beaten(told) == {1, 3, 4}
    best = best_few(told)
    assert best[3] == "stiffest"
    assert best[4] == "lightest"
    assert best[1] == "cheapest, best balanced"


def test_none_is_best_of_nothing() -> None:
    assert best_few(rows(None)) == {}
    assert not_beaten([]) == frozenset()
