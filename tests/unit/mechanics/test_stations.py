from __future__ import annotations

from typing import Any

import numpy as np
import pytest

from fitwright.mechanics import (
    add,
    along,
    at_nodes,
    at_points,
    factorise,
    frame_model,
    peak_forces,
    section_forces,
    solve,
    supports,
)

SECTION: dict[str, Any] = {"e": 2e5, "g": 8e4, "area": 200.0, "i_y": 2e4, "i_z": 3e4, "j": 6e4, "y_axis": (0, 1, 0)}
MODEL = frame_model([[0, 0, 0], [600, 0, 0]], [[0, 1]], **SECTION)
SIMPLE = factorise(MODEL, supports(MODEL, {0: "ux uy uz rx", 1: "uy uz"}))


def test_tension_and_shear_of_a_cantilever() -> None:
    factor = factorise(MODEL, supports(MODEL, {0: "fixed"}))
    response = solve(factor, at_nodes(MODEL, [{1: (500, 40, -30, 900, 0, 0)}]))
    forces = section_forces(response, (0.0, 0.5, 1.0))[0, :, :, 0]
    assert forces[:, :4] == pytest.approx(np.tile([500, 40, -30, 900], (3, 1)))
    assert forces[:, 5] == pytest.approx([40 * 600, 40 * 300, 0], abs=1e-6)
    assert forces[:, 4] == pytest.approx([30 * 600, 30 * 300, 0], abs=1e-6)


def test_point_force_on_a_simple_beam() -> None:
    """Shear jumps from P b / L to -P a / L, moment P a b / L under the force; peak found off the stations."""
    response = solve(SIMPLE, at_points(MODEL, [0], [200.0], [[0, 0, -90.0, 0, 0, 0]]))
    forces = section_forces(response, (0.0, 1 / 3, 0.5, 1.0))[0, :, :, 0]
    assert forces[:, 2] == pytest.approx([-60, -60, 30, 30])
    assert forces[:, 4] == pytest.approx([0, -12000, -9000, 0], abs=1e-6)
    assert peak_forces(response)[0, 4, 0] == pytest.approx(12000)
    assert peak_forces(response)[0, 2, 0] == pytest.approx(60)


def test_point_moment_jumps() -> None:
    """M a / L before and M b / L after, for a moment M on a simple beam."""
    response = solve(SIMPLE, at_points(MODEL, [0], [150.0], [[0, 0, 0, 0, 0, 8000.0]]))
    assert peak_forces(response)[0, 5, 0] == pytest.approx(8000 * 450 / 600)


def test_peak_lies_off_the_middle() -> None:
    """Uniform load and an end moment M: the far support carries w L / 2 + M / L and the peak is R2 / 2 w from there."""
    response = solve(SIMPLE, add(along(MODEL, [[0, 0, -1.0]]), at_nodes(MODEL, [{0: (0, 0, 0, 0, 30000.0, 0)}])))
    assert response.reactions[[2, 8], 0] == pytest.approx([250, 350])
    assert peak_forces(response)[0, 4, 0] == pytest.approx(350**2 / 2)
    assert peak_forces(response)[0, 2, 0] == pytest.approx(350)


def test_all_cases_at_once() -> None:
    loads = along(MODEL, np.array([[[0.0, 0.0], [0.0, -2.0], [-1.0, 0.0]]]))
    peaks = peak_forces(solve(SIMPLE, loads))[0]
    assert peaks[4] == pytest.approx([600**2 / 8, 0.0], abs=1e-6)
    assert peaks[5] == pytest.approx([0.0, 2 * 600**2 / 8], abs=1e-6)


def test_uniform_and_point_load_together() -> None:
    """P at 450 of 600 mm and w: zero shear lies before the force, M = R2 / 2 w there, R = w L / 2 + P / 4."""
    both = add(along(MODEL, [[0, 0, -1.0]]), at_points(MODEL, [0], [450.0], [[0, 0, -80.0, 0, 0, 0]]))
    reaction = 300 + 20
    assert peak_forces(solve(SIMPLE, both))[0, 4, 0] == pytest.approx(reaction**2 / 2)
