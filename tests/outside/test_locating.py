"""Deterministic location of a rigid part by point locators.

H. Asada, A. B. By, "Kinematic analysis of workpart fixturing for flexible assembly with automatically reconfigurable
fixtures", IEEE Journal of Robotics and Automation RA-1(2), 1985, 86-94: a part is located when the Jacobian of the
locators' constraints has full rank; the 3-2-1 scheme of six locators on three faces square to one another has it, and
loses it when the three of the first face stand in one line, or the two of the second stand square to the bench.
The closed forms below follow from the Jacobian by hand.
"""

from __future__ import annotations

from itertools import combinations
from math import sqrt

import numpy as np
import pytest
from numpy.typing import NDArray

from fitwright.making.bench.locating import best_triple, conditioning, is_located, locating_jacobian

Floats = NDArray[np.float64]

DOWN, BACK, SIDE = [0.0, 0, 1], [0.0, 1, 0], [1.0, 0, 0]
FACES = np.array([DOWN, DOWN, DOWN, BACK, BACK, SIDE])


def three_two_one(first: Floats, second: Floats) -> Floats:
    points = np.vstack([first, second, [[0.0, 30, 20]]])
    return locating_jacobian(points, FACES, np.zeros(3), 50.0)


FIRST = np.array([[-40.0, -20, 0], [40, -20, 0], [0, 30, 0]])
SECOND = np.array([[-40.0, 0, 20], [40, 0, 20]])


def test_three_two_one_locates() -> None:
    jacobian = three_two_one(FIRST, SECOND)
    assert np.linalg.matrix_rank(jacobian) == 6
    assert is_located(jacobian)


def test_three_in_a_line_do_not() -> None:
    in_line = np.array([[-40.0, 0, 0], [0, 0, 0], [40, 0, 0]])
    assert np.linalg.matrix_rank(three_two_one(in_line, SECOND)) == 5
    assert not is_located(three_two_one(in_line, SECOND))


def test_two_over_one_another_do_not() -> None:
    upright = np.array([[0.0, 0, 0], [0, 0, 40]])
    assert not is_located(three_two_one(FIRST, upright))


def test_any_five_do_not() -> None:
    jacobian = three_two_one(FIRST, SECOND)
    for five in combinations(range(6), 5):
        assert conditioning(jacobian[list(five)]) == 0.0


@pytest.mark.parametrize("half", [5.0, 20.0, 60.0, 100.0])
def test_in_the_plane_the_span_of_the_two_decides(half: float) -> None:
    """Two on one face, +-a from the middle, one on a face square to it through the middle: the singular values are
    sqrt(2), 1 and sqrt(2) a / L."""
    points = np.array([[0.0, half], [0.0, -half], [0.0, 0.0]])
    jacobian = locating_jacobian(points, np.array([[1.0, 0], [1.0, 0], [0.0, 1]]), np.zeros(2), 100.0)
    assert conditioning(jacobian) == pytest.approx(min(1.0, sqrt(2) * half / 100.0))


def test_a_locator_s_error_moves_the_part_by_no_more_than_its_reciprocal() -> None:
    rng = np.random.default_rng(1)
    for _ in range(50):
        points, turns = rng.uniform(-1, 1, (3, 2)), rng.uniform(0, 2 * np.pi, 3)
        jacobian = locating_jacobian(points, np.column_stack([np.cos(turns), np.sin(turns)]), np.zeros(2), 1.0)
        value = conditioning(jacobian)
        moved = np.linalg.solve(jacobian, error := rng.normal(size=3))
        assert np.linalg.norm(moved) <= np.linalg.norm(error) / value * (1 + 1e-9)


def test_the_best_three_are_the_best_of_all() -> None:
    rng = np.random.default_rng(2)
    first = np.column_stack([np.zeros(7), rng.uniform(-100, 100, 7)])
    second = np.column_stack([rng.uniform(-100, 100, 5), np.full(5, 90.0)])
    normals = np.array([1.0, 0]), np.array([0.0, -1])
    apart = np.array([20.0, 20.0])
    found = best_triple(first, second, normals, np.zeros(2), 100.0, apart)
    assert found is not None
    best = -1.0
    for i, j in combinations(range(7), 2):
        for k in range(5):
            points = np.array([first[i], first[j], second[k]])
            gaps = [np.linalg.norm(a - b) for a, b in combinations(points, 2)]
            if min(gaps) >= 20.0:
                jacobian = locating_jacobian(points, np.array([normals[0], *normals]), np.zeros(2), 100.0)
                best = max(best, conditioning(jacobian))
    assert found[3] == pytest.approx(best)


def test_no_three_where_none_stand_apart() -> None:
    close = np.array([[0.0, 0.0], [0.0, 5.0]])
    normals = np.array([1.0, 0]), np.array([0.0, 1])
    assert best_triple(close, np.array([[50.0, 0.0]]), normals, np.zeros(2), 100.0, np.array([20.0, 20.0])) is None
