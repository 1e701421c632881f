from __future__ import annotations

import pytest

from fitwright.making.bending.thinning import (
    expected_ovality,
    inner_wall,
    outer_strain,
    outer_wall,
    wall_before_bending,
)


def test_mid_walls_keep_their_volume() -> None:
    """The mid-wall fibre outside is (R + r) / R long and its wall R / (R + r) thick."""
    wall, od, radius = 2.0, 32.0, 100.0
    mid = (od - wall) / 2
    assert outer_wall(wall, od, radius) * (radius + mid) == pytest.approx(wall * radius)
    assert inner_wall(wall, od, radius) * (radius - mid) == pytest.approx(wall * radius)


def test_between_rows_the_table_is_read_straight() -> None:
    assert wall_before_bending(4.5, 1.0) == pytest.approx((1.08 + 1.14) / 2)


def test_tighter_is_worse() -> None:
    assert expected_ovality(32, 80) > expected_ovality(32, 120)
    assert outer_strain(32, 80) > outer_strain(32, 120)
    assert expected_ovality(32, 80) == pytest.approx(0.08)
