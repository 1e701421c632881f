"""Boards and bought things as solids."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest

from fitwright.piece.model import Board, Hardware
from fitwright.sheets.solids.fittings import board_shape, hardware_shapes
from fitwright.sheets.solids.kernel import volume
from fitwright.stock import parse_stock
from tests.unit.sheets.solids.measure import bounds


def _item(kind: str, **properties: Any) -> Hardware:
    return Hardware(kind, kind, kind, "bought", np.array([10.0, 20, 100]), properties, 0.5, None, 1)


def test_a_board_is_a_box_of_its_mass() -> None:
    board = Board("slat", parse_stock("board 20 x 95 oak"), np.zeros(3), np.array([600.0, 95, 20]), 0, 1)
    assert volume(board_shape(board)) * board.stock.material.density * 1e-9 == pytest.approx(board.mass)


def test_a_caster_trails_to_the_back_and_stands_on_the_floor() -> None:
    shapes = hardware_shapes(_item("caster", height=100.0, wheel=75.0, width=25.0, lead=30.0))
    low, high = bounds(shapes["wheel"])
    np.testing.assert_allclose(low, [-2.5, 12.5, 0], atol=1e-6)
    np.testing.assert_allclose(high, [22.5, 87.5, 75], atol=1e-6)
    assert bounds(shapes["fork"])[1][2] == pytest.approx(100)


def test_a_fixed_caster_does_not_trail() -> None:
    shapes = hardware_shapes(_item("caster", height=100.0, wheel=75.0, width=25.0, lead=30.0, swivel=False))
    low, high = bounds(shapes["wheel"])
    assert (low[1] + high[1]) / 2 == pytest.approx(20)


def test_feet_and_fittings_have_their_sizes_and_screws_have_none() -> None:
    foot = hardware_shapes(_item("foot", height=30.0, diameter=40.0))["foot"]
    assert volume(foot) == pytest.approx(np.pi * 400 * 30)
    fitting = hardware_shapes(_item("fitting", size_x=10.0, size_y=20.0, size_z=5.0))["fitting"]
    assert volume(fitting) == pytest.approx(1000)
    assert hardware_shapes(_item("screw", length=30.0)) == {}
    assert hardware_shapes(_item("fitting")) == {}
