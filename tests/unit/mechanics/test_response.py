from __future__ import annotations

from typing import Any

import numpy as np
import pytest

from fitwright.mechanics import FrameError, at_nodes, factorise, forces, frame_model, refine, solve, supports
from fitwright.mechanics.response import sharpen

SECTION: dict[str, Any] = {"e": 2e5, "g": 8e4, "area": 200.0, "i_y": 2e4, "i_z": 3e4, "j": 6e4, "y_axis": (0, 1, 0)}
MODEL = frame_model([[0, 0, 0], [500, 0, 0]], [[0, 1]], **SECTION)


def test_sinking_support() -> None:
    """6 EI d / L2 at both ends of a fixed beam whose end sinks by d, 12 EI d / L3 across."""
    factor = factorise(MODEL, supports(MODEL, {0: "fixed", 1: "fixed"}))
    moved = np.zeros(12)
    moved[8] = -2.0
    response = solve(factor, forces(MODEL, np.zeros(12)), moved)
    assert response.reactions[[2, 8], 0] == pytest.approx([12 * 2e5 * 2e4 * 2 / 500**3, -12 * 2e5 * 2e4 * 2 / 500**3])
    assert response.reactions[[4, 10], 0] == pytest.approx([-6 * 2e5 * 2e4 * 2 / 500**2] * 2)


def test_offset_end_passes_force_and_moment_to_its_node() -> None:
    """The node sits 20 mm under the element: a pull at the free end reaches it with its arm."""
    model = frame_model([[0, 0, -20], [500, 0, 0]], [[0, 1]], **SECTION, offsets=[[[0, 0, 20], [0, 0, 0]]])
    response = solve(factorise(model, supports(model, {0: "fixed"})), at_nodes(model, [{1: (300, 0, 0, 0, 0, 0)}]))
    assert response.reactions[:6, 0] == pytest.approx([-300, 0, 0, 0, -6000, 0], abs=1e-8)
    assert response.end_forces[0, :6, 0] == pytest.approx([-300, 0, 0, 0, 0, 0], abs=1e-8)


def test_load_on_a_held_displacement_goes_straight_to_the_support() -> None:
    factor = factorise(MODEL, supports(MODEL, {0: "fixed"}))
    response = solve(factor, at_nodes(MODEL, [{0: (1, 2, 3, 4, 5, 6)}]))
    assert response.reactions[:6, 0] == pytest.approx([-1, -2, -3, -4, -5, -6])
    assert not response.displacements.any()


def test_loads_of_another_frame() -> None:
    factor = factorise(MODEL, supports(MODEL, {0: "fixed"}))
    longer = frame_model([[0, 0, 0], [500, 0, 0], [600, 0, 0]], [[0, 1], [1, 2]], **SECTION)
    with pytest.raises(FrameError, match="18 displacements on a frame with 12"):
        solve(factor, at_nodes(longer, [{0: (1, 2, 3, 4, 5, 6)}]))


def test_sharpened_forces_balance_better() -> None:
    """A long row of short elements, end moved by 1 mm: what is left unbalanced inside falls tenfold."""
    model = refine(MODEL, 60)
    factor = factorise(model, supports(model, {0: "fixed", 1: "fixed"}))
    moved = np.zeros(model.dof_count)
    moved[8] = 1.0
    rough = solve(factor, forces(model, np.zeros(model.dof_count)), moved)
    sharp = sharpen(rough)
    exact = 12 * 2e5 * 2e4 / 500**3
    assert sharp.displacements == pytest.approx(rough.displacements, abs=1e-8)
    assert abs(sharp.reactions[8, 0] / exact - 1) < 1e-10
    left, before = (abs(answer.reactions[8, 0] + answer.reactions[2, 0]) for answer in (sharp, rough))
    assert left < 0.1 * before
