from __future__ import annotations

from typing import Any

import numpy as np
import pytest

from fitwright.mechanics import at_nodes, buckling, factorise, frame_model, refine, solve, supports

SECTION: dict[str, Any] = {"e": 2e5, "g": 8e4, "area": 200.0, "i_y": 2e4, "i_z": 3e4, "j": 6e4, "y_axis": (0, 1, 0)}
COLUMN = refine(frame_model([[0, 0, 0], [800, 0, 0]], [[0, 1]], **SECTION), 8)
HELD = supports(COLUMN, {0: "ux uy uz rx", 1: "uy uz"})
EULER = np.pi**2 * 2e5 / 800**2


def test_weak_way_first_then_strong() -> None:
    response = solve(factorise(COLUMN, HELD), at_nodes(COLUMN, [{1: (-100, 0, 0, 0, 0, 0)}]))
    result = buckling(response, modes=2)
    assert result.factors == pytest.approx([EULER * 2e4 / 100, EULER * 3e4 / 100], rel=1e-4)
    shapes = result.shapes.reshape(-1, 6, 2)
    assert np.abs(shapes[:, 2, 0]).max() == pytest.approx(1.0)
    assert np.abs(shapes[:, 1, 0]).max() < 1e-6
    assert np.abs(shapes[:, 1, 1]).max() == pytest.approx(1.0)


def test_case_is_chosen() -> None:
    loads = at_nodes(COLUMN, [{1: (100, 0, 0, 0, 0, 0)}, {1: (-200, 0, 0, 0, 0, 0)}])
    response = solve(factorise(COLUMN, HELD), loads)
    assert buckling(response, case=0).factors.size == 0
    assert buckling(response, case=1).factors == pytest.approx([EULER * 2e4 / 200], rel=1e-4)


def test_hinged_brace_halves_the_length() -> None:
    """A brace that passes no moment holds the middle of the column: four times Euler's load, in its plane."""
    nodes = np.vstack([COLUMN.nodes, [[400, 0, 300], [400, 300, 0]]])
    middle = 5
    assert COLUMN.nodes[middle].tolist() == [400, 0, 0]
    pairs = np.vstack([COLUMN.elements, [[10 - 1, middle], [10, middle]]])
    releases = np.zeros((10, 12), dtype=np.bool_)
    releases[8:, [4, 5, 9, 10, 11]] = True
    model = frame_model(nodes, pairs, **{**SECTION, "y_axis": (0.3, 1, 0.3)}, releases=releases)
    factor = factorise(model, supports(model, {0: "ux uy uz rx", 1: "uy uz", 9: "fixed", 10: "fixed"}))
    response = solve(factor, at_nodes(model, [{1: (-100, 0, 0, 0, 0, 0)}]))
    assert buckling(response).factors[0] == pytest.approx(4 * EULER * 2e4 / 100, rel=2e-3)
