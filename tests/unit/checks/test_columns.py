from __future__ import annotations

import numpy as np
import pytest

from fitwright.checks.columns import (
    OMEGA,
    bending_capacity,
    column_capacity,
    column_stress,
    compression_limit,
    interaction,
    wall_slenderness,
)
from fitwright.stock import parse_stock


def test_stocky_columns_yield_and_slender_ones_follow_euler() -> None:
    assert column_stress(250.0, 1e6) == pytest.approx(250, rel=1e-3)
    assert column_stress(250.0, 20.0) == pytest.approx(0.877 * 20)
    assert column_stress(250.0, 250 / 2.25 + 1e-9) == pytest.approx(column_stress(250.0, 250 / 2.25 - 1e-9), rel=5e-3)
    assert column_stress(250.0, 0.0) == 0


def test_an_angle_buckles_about_its_weak_principal_axis() -> None:
    angle = parse_stock("angle 40 x 40 x 4").section
    weak, strong = angle.principal[1], angle.i_u
    assert weak < 0.5 * strong
    long = 4000.0
    expected = 0.877 * np.pi**2 * 210e3 * weak / long**2 / OMEGA
    assert column_capacity(angle, 210e3, 235, long) == pytest.approx(expected)


def test_interaction_is_one_curve() -> None:
    assert interaction(np.array([0.2]), np.array([0.9]))[0] == pytest.approx(1.0)
    assert interaction(np.array([0.2 - 1e-12]), np.array([0.9]))[0] == pytest.approx(1.0)
    assert np.isnan(interaction(np.array([np.nan]), np.array([0.1]))[0])


def test_wall_slenderness() -> None:
    assert wall_slenderness(parse_stock("round tube 32 x 2").section) == 16
    assert wall_slenderness(parse_stock("square tube 40 x 40 x 2").section) == (40 - 8) / 2
    assert wall_slenderness(parse_stock("angle 40 x 40 x 4").section) is None
    assert compression_limit(parse_stock("angle 40 x 40 x 4").section, 2e5, 235) is None


def test_compact_round_tube_may_use_its_plastic_moment() -> None:
    tube, square = parse_stock("round tube 32 x 2").section, parse_stock("square tube 40 x 40 x 2").section
    assert bending_capacity(tube, 210e3, 235) == pytest.approx(235 * tube.z_plastic_u / OMEGA)
    assert bending_capacity(square, 210e3, 235) == pytest.approx(235 * square.s_u / OMEGA)
