from __future__ import annotations

from typing import Any

import numpy as np
import pytest

from fitwright.mechanics import (
    FrameError,
    add,
    along,
    at_nodes,
    at_points,
    beams,
    combine,
    factorise,
    forces,
    frame_model,
    self_weight,
    side_by_side,
    solve,
    supports,
)

SECTION: dict[str, Any] = {"e": 2e5, "g": 8e4, "area": 200.0, "i_y": 2e4, "i_z": 3e4, "j": 6e4}
MODEL = frame_model([[0, 0, 0], [300, 0, 0], [300, 0, 400]], [[0, 1], [1, 2]], **SECTION, mass_per_mm=1.57e-3)


def test_self_weight_is_carried_whole() -> None:
    """700 mm at 1.57 kg/m."""
    response = solve(factorise(MODEL, supports(MODEL, {0: "fixed"})), self_weight(MODEL))
    assert response.reactions[2, 0] == pytest.approx(0.7 * 1.57 * 9.80665)


def test_local_axes() -> None:
    local = along(MODEL, [[0, 0, 2.0], [0, 0, 2.0]], beams(MODEL).rotation)
    assert local.line is not None
    assert local.line[:, :, 0] == pytest.approx(np.array([[0, 0, 2.0], [-2.0, 0, 0]]))


def test_cases_side_by_side_and_mixed() -> None:
    one = at_nodes(MODEL, [{2: (1, 0, 0, 0, 0, 0)}, {2: (0, 1, 0, 0, 0, 0)}])
    two = self_weight(MODEL)
    both = side_by_side(one, two)
    assert both.cases == 3
    assert both.line is not None
    assert not both.line[:, :, :2].any()
    mixed = combine(both, [1.2, 0.0, 1.5])
    assert mixed.nodal[12, 0] == 1.2
    assert mixed.line is not None
    assert two.line is not None
    assert mixed.line == pytest.approx(1.5 * two.line)


def test_wrong_shapes_and_places() -> None:
    with pytest.raises(FrameError, match="give 6 a node"):
        forces(MODEL, np.zeros((7, 2)))
    with pytest.raises(FrameError, match="from 0 to 300 mm"):
        at_points(MODEL, [0], [301.0], [[0, 0, 1, 0, 0, 0]])
    with pytest.raises(FrameError, match="cannot act together"):
        add(self_weight(MODEL), at_nodes(MODEL, [{}, {}]))
