from __future__ import annotations

from typing import Any

import numpy as np
import pytest

from fitwright.mechanics import factorise, forces, frame_model, solve, supports

SECTION: dict[str, Any] = {"e": 2e5, "g": 8e4, "area": 200.0, "i_y": 2e4, "i_z": 3e4, "j": 6e4}


def test_held_and_free_are_numbered() -> None:
    model = frame_model([[0, 0, 0], [100, 0, 0]], [[0, 1]], **SECTION)
    factor = factorise(model, supports(model, {0: "fixed", 1: "uz"}))
    assert factor.held.tolist() == [0, 1, 2, 3, 4, 5, 8]
    assert factor.free.tolist() == [6, 7, 9, 10, 11]
    assert factor.matrix.shape == (5, 5)


def test_factors_solve_the_matrix_for_many_sides() -> None:
    model = frame_model([[0, 0, 0], [100, 0, 0], [100, 80, 0]], [[0, 1], [1, 2]], **SECTION)
    factor = factorise(model, supports(model, {0: "fixed"}))
    sides = np.random.default_rng(0).normal(size=(12, 5))
    assert factor.matrix @ factor.solve_free(sides) == pytest.approx(sides, abs=1e-7)


def test_everything_held() -> None:
    model = frame_model([[0, 0, 0], [100, 0, 0]], [[0, 1]], **SECTION)
    factor = factorise(model, supports(model, {0: "fixed", 1: "fixed"}))
    response = solve(factor, forces(model, np.arange(12.0)))
    assert not response.displacements.any()
    assert response.reactions[:, 0] == pytest.approx(-np.arange(12.0))
