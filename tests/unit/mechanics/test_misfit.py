from __future__ import annotations

from typing import Any

import numpy as np
import pytest

from fitwright.mechanics import (
    FrameError,
    factorise,
    frame_model,
    influence,
    misfit_forces,
    misfits,
    section_forces,
    solve,
    supports,
)

SECTION: dict[str, Any] = {"e": 2e5, "g": 8e4, "area": 200.0, "i_y": 2e4, "i_z": 3e4, "j": 6e4}
MODEL = frame_model([[0, 0, 0], [0, 300, 0]], [[0, 1]], **SECTION)


@pytest.mark.parametrize(("end", "gap"), [(1, 1.0), (0, -1.0)])
def test_rod_too_long_between_walls(end: int, gap: float) -> None:
    factor = factorise(MODEL, supports(MODEL, {0: "fixed", 1: "fixed"}))
    response = solve(factor, misfits(MODEL, [0], [end], [[0, gap, 0, 0, 0, 0]]))
    assert section_forces(response)[0, :, 0, 0] == pytest.approx(-2e5 * 200 / 300)


@pytest.mark.parametrize("end", [0, 1])
def test_held_at_one_end_it_takes_its_own_shape(end: int) -> None:
    """With the other end fixed, end 1 goes where the member wants; a kink at end 0 swings the far end by angle x L."""
    factor = factorise(MODEL, supports(MODEL, {0: "fixed"}))
    response = solve(factor, misfits(MODEL, [0], [end], [[0.5, 0, 0, 0, 0, 0.01]]))
    expected = [0.5, 0, 0, 0, 0, 0.01] if end == 1 else [-0.5 + 0.01 * 300, 0, 0, 0, 0, -0.01]
    assert response.by_node[1, :, 0] == pytest.approx(expected, abs=1e-9)
    assert np.abs(response.end_forces).max() < 1e-6


def test_columns_are_the_same_as_cases() -> None:
    factor = factorise(MODEL, supports(MODEL, {0: "fixed", 1: "ux uz"}))
    columns = misfit_forces(factor, [0, 0], [0, 1])
    cases = misfits(MODEL, [0, 0], [0, 1], np.eye(12).reshape(2, 6, 12))
    moved = solve(factor, cases).displacements
    assert influence(factor, np.eye(12), columns) == pytest.approx(moved, abs=1e-9)


def test_only_two_ends() -> None:
    with pytest.raises(FrameError, match="0 and 1"):
        misfits(MODEL, [0], [2], [[0] * 6])
