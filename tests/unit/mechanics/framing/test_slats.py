from __future__ import annotations

import numpy as np
import pytest

from fitwright.mechanics.framing.slats import Stretch, by_slats

Y = np.array([0.0, 1.0, 0.0])


def rail(x: float, start: float = 0.0, end: float = 400.0) -> Stretch:
    """A rail along Y at an x."""
    return Stretch(np.array([x, 0.0, 0.0]), Y, start, end)


def split(rails: list[Stretch | None], x: float, y: float = 200.0) -> list[float]:
    nearest = np.full((len(rails), 1), 1 / len(rails))
    return [float(part) for part in by_slats(rails, np.array([[x, y, 0.0]]), 0, 1, nearest)[:, 0]]


def test_a_load_goes_to_its_two_neighbours_by_the_lever_rule() -> None:
    assert split([rail(0), rail(300), rail(900)], 450) == pytest.approx([0, 0.75, 0.25])


def test_an_overhang_lifts_the_rail_before_the_last() -> None:
    assert split([rail(0), rail(300), rail(900)], 1000) == pytest.approx([0, -100 / 600, 700 / 600])


def test_a_rail_that_runs_along_the_slats_or_ends_before_them_takes_nothing() -> None:
    alongside = Stretch(np.zeros(3), np.array([1.0, 0.0, 0.0]), 0.0, 900.0)
    assert split([alongside, rail(0), rail(900), rail(450, end=100)], 450) == pytest.approx([0, 0.5, 0.5, 0])


def test_a_slat_with_one_rail_under_it_stays_as_it_was() -> None:
    assert split([rail(0), None], 100) == pytest.approx([0.5, 0.5])


def test_rails_side_by_side_are_one() -> None:
    assert split([rail(0), rail(2), rail(100)], 50) == pytest.approx([0.5, 0, 0.5])
