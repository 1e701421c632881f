"""Distances to a bent body near the seams between its straights and its bends, and copes that end near them."""

from __future__ import annotations

import numpy as np
import pytest

from fitwright.piece.body import Body
from fitwright.piece.path import Path
from fitwright.piece.trim import cope_distance, march_stop
from fitwright.stock import parse_stock

TUBE = parse_stock("round tube 32 x 2 mm").section


def _bent() -> Body:
    vertices = np.array([[0, 0, 0], [0, 0, 600], [500, 0, 600.0]])
    return Body(Path(vertices, np.array([0, 80.0, 0])), np.array([[1.0, 0, 0], [0, -1.0, 0]]), TUBE)


def test_the_axis_is_a_radius_deep_also_beside_a_seam() -> None:
    """0.2 mm into the straight after the bend, the seam's face is no surface of the member."""
    axis = np.array([[79.8, 0, 600], [80.2, 0, 600], [0, 0, 519.8], [0, 0, 520.2]])
    np.testing.assert_allclose(_bent().distance(axis), -16, atol=1e-3)


def test_an_open_end_is_a_surface() -> None:
    assert _bent().distance(np.array([[499.0, 0, 600]])) == pytest.approx(-1)
    assert _bent().distance(np.array([[503.0, 0, 600]])) == pytest.approx(3)


def test_a_grazing_line_stops_where_it_touches() -> None:
    """Beside a bend's edge the surface is met at a glance; on the plane of the axis the cope of equal tubes ends."""
    bent = _bent()
    branch = Body(
        Path(np.array([[80, 0, 600], [80, -300, 600.0]]), np.zeros(2)), np.array([[1.0, 0, 0], [0, 0, 1.0]]), TUBE
    )
    uv = np.array([[0, 15.999], [0, 15.0], [0, 0.0]])
    np.testing.assert_allclose(march_stop(branch, 0, uv, bent), -np.sqrt(16**2 - uv[:, 1] ** 2), atol=0.02)


def test_a_cope_is_a_full_round_past_an_open_end() -> None:
    post = Body(Path(np.array([[0, 0, 0], [0, 0, 600.0]]), np.zeros(2)), np.array([[1.0, 0, 0], [0, 1.0, 0]]), TUBE)
    arm = Body(Path(np.array([[0, 0, 600], [300, 0, 600.0]]), np.zeros(2)), np.array([[0, 1.0, 0], [0, 0, 1.0]]), TUBE)
    np.testing.assert_allclose(cope_distance(arm, 0, post, np.array([[20.0, 0, 610]])), 4)
