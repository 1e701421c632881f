from __future__ import annotations

import numpy as np
import pytest

from fitwright.place.photo.turning import crossing, turn, turn_rate

VECTORS = [np.array([0.3, -1.2, 0.7]), np.array([1e-8, 0.0, 2e-8]), np.array([0.0, 0.0, 3.0])]


def test_crossing_is_the_cross_product() -> None:
    one, other = np.array([1.0, 2.0, 3.0]), np.array([-2.0, 0.5, 4.0])
    assert crossing(one) @ other == pytest.approx(np.cross(one, other))
    assert crossing(np.array([one, other]))[1] @ one == pytest.approx(np.cross(other, one))


def test_a_quarter_turn_about_z() -> None:
    assert turn(np.array([0, 0, np.pi / 2])) @ [1, 0, 0] == pytest.approx([0, 1, 0])


@pytest.mark.parametrize("vector", VECTORS)
def test_a_turn_keeps_lengths_and_hands(vector: np.ndarray) -> None:
    matrix = turn(vector)
    assert matrix @ matrix.T == pytest.approx(np.eye(3))
    assert np.linalg.det(matrix) == pytest.approx(1)


@pytest.mark.parametrize("vector", VECTORS)
def test_rate_of_a_turn(vector: np.ndarray) -> None:
    """turn(vector + small) is turn(rate @ small) after turn(vector)."""
    small = 1e-6 * np.array([0.4, -0.3, 0.8])
    assert turn(vector + small) @ turn(vector).T == pytest.approx(turn(turn_rate(vector) @ small), abs=1e-11)
