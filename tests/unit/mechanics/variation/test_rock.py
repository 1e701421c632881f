from __future__ import annotations

import numpy as np
import pytest

from fitwright.mechanics.model import Floats
from fitwright.mechanics.variation.rock import rock, stances

SQUARE = np.array([[0.0, 0], [100, 0], [100, 100], [0, 100]])
MIDDLE = np.array([50.0, 50.0])


def test_flat_feet_do_not_rock_nor_does_a_tilted_plane() -> None:
    plane = SQUARE @ [0.01, -0.02] + 3
    assert rock(np.array([[5.0, 5, 5, 5], plane]), stances(SQUARE, MIDDLE)) == pytest.approx([0, 0], abs=1e-12)


@pytest.mark.parametrize("foot", range(4))
@pytest.mark.parametrize("off", [0.7, -0.7])
def test_one_foot_short_or_long(foot: int, off: float) -> None:
    heights = np.zeros((1, 4))
    heights[0, foot] = off
    assert rock(heights, stances(SQUARE, MIDDLE))[0] == pytest.approx(0.7)


def test_a_mass_to_one_side_stands_on_the_near_three() -> None:
    possible = stances(SQUARE, np.array([20.0, 30.0]))
    heights = np.array([[0.0, 0, 1, 0]])
    assert rock(heights, possible)[0] == pytest.approx(1)
    assert all(0 in three for three, _ in possible)


def test_three_feet_never_rock() -> None:
    assert rock(np.array([[1.0, -2, 5]]), stances(SQUARE[:3], np.array([60.0, 30])))[0] == 0


@pytest.mark.parametrize("seed", range(5))
def test_six_feet_against_dropping_the_plane_by_hand(seed: int) -> None:
    """The lowest plane under all feet that carries the mass, by linear programming."""
    from scipy.optimize import linprog

    stream = np.random.default_rng(seed)
    plan: Floats = np.array([[0, 0], [100, 0], [200, 0], [0, 80], [100, 80], [200, 80.0]]) + stream.normal(0, 5, (6, 2))
    heights, centre = stream.normal(0, 1, 6), np.array([90.0, 35.0])
    answer = linprog(-np.append(centre, 1), np.column_stack([plan, np.ones(6)]), heights, bounds=(None, None))
    gaps = heights - np.column_stack([plan, np.ones(6)]) @ answer.x
    assert rock(heights[None], stances(plan, centre))[0] == pytest.approx(gaps.max())
