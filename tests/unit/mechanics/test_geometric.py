"""Equation numbers of McGuire, Gallagher, Ziemian, Matrix Structural Analysis (2000), are from memory."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest

from fitwright.mechanics import beams, frame_model
from fitwright.mechanics.geometric import geometric_stiffness

SECTION: dict[str, Any] = {"e": 2e5, "g": 8e4, "area": 200.0, "i_y": 2e4, "i_z": 3e4, "j": 6e4, "y_axis": (0, 1, 0)}


def test_entries_of_the_textbook() -> None:
    """McGuire, Gallagher, Ziemian, equation 9.18: 6 N / 5 L, N / 10, 2 N L / 15, -N L / 30."""
    model = frame_model([[0, 0, 0], [300, 0, 0]], [[0, 1]], **SECTION)
    k = geometric_stiffness(model, beams(model), np.array([50.0]))[0]
    assert k[1, 1] == pytest.approx(6 * 50 / 5 / 300)
    assert k[1, 5] == pytest.approx(5.0)
    assert k[2, 4] == pytest.approx(-5.0)
    assert k[5, 5] == pytest.approx(2 * 50 * 300 / 15)
    assert k[4, 10] == pytest.approx(-50 * 300 / 30)
    assert k[3, 9] == pytest.approx(-50 * 5e4 / 200 / 300)
    assert k == pytest.approx(k.T)


def test_moving_sideways_costs_nothing() -> None:
    model = frame_model([[0, 0, 0], [100, 200, -50]], [[0, 1]], **SECTION, offsets=[[[0, 0, 9], [4, 0, 0]]])
    k = geometric_stiffness(model, beams(model), np.array([50.0]))[0]
    shift = np.tile([1.0, -2.0, 0.5, 0, 0, 0], 2)
    assert np.abs(k @ shift).max() < 1e-9


def test_hinged_bar_turns_like_a_string() -> None:
    """Released in bending at both ends, only N / L is left across."""
    releases = [False, False, False, False, True, True] * 2
    model = frame_model([[0, 0, 0], [300, 0, 0]], [[0, 1]], **SECTION, releases=releases)
    k = geometric_stiffness(model, beams(model), np.array([60.0]))[0]
    assert k[1, 1] == pytest.approx(60 / 300)
    assert k[1, 7] == pytest.approx(-60 / 300)
    assert k[5, 5] == pytest.approx(0, abs=1e-9)
