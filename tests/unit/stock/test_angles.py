"""Angle by composite rectangles, and its radii."""

from __future__ import annotations

from math import pi

import numpy as np
import pytest

from fitwright.stock import Angle, StockError


def test_sharp_angle_by_composite_rectangles() -> None:
    angle = Angle(50.0, 30.0, 5.0)
    assert angle.area == pytest.approx(50 * 5 + 25 * 5)
    centroid = np.array([50 * 5 * 25 + 25 * 5 * 2.5, 50 * 5 * 2.5 + 25 * 5 * 17.5]) / 375
    np.testing.assert_allclose(angle.centroid, centroid)
    i_u = 50 * 5**3 / 12 + 250 * (2.5 - centroid[1]) ** 2 + 5 * 25**3 / 12 + 125 * (17.5 - centroid[1]) ** 2
    assert angle.i_u == pytest.approx(i_u)
    assert angle.i_uv < 0


def test_radii_add_the_root_and_take_off_the_toes() -> None:
    sharp, rolled = Angle(30.0, 30.0, 3.0), Angle(30.0, 30.0, 3.0, 5.0, 2.5)
    assert rolled.area - sharp.area == pytest.approx((1 - pi / 4) * (5.0**2 - 2 * 2.5**2))


def test_legs_from_the_heel() -> None:
    angle = Angle(50.0, 30.0, 5.0, 4.0, 2.0)
    assert angle.extents == (0, 50, 0, 30)
    assert angle.distance(np.array([40.0, 15.0])) == pytest.approx(10.0)
    assert angle.distance(np.array([-3.0, -4.0])) == pytest.approx(5.0)
    assert angle.distance(np.array([30.0, 2.0])) == pytest.approx(-2.0)
    assert angle.distance(np.array([9.0, 9.0])) == pytest.approx(4.0)


def test_plastic_modulus_of_a_sharp_angle_by_hand() -> None:
    # 20 x 20 x 4: area 144, half 72; the axis lies at 72 / 20 = 3.6 above the heel's face
    angle = Angle(20.0, 20.0, 4.0)
    by_hand = 20 * 3.6 * 1.8 + 20 * 0.4 * 0.2 + 4 * 16 * (8.0 + 0.4)
    assert angle.z_plastic_u == pytest.approx(by_hand, rel=1e-9)
    assert angle.z_plastic_v == pytest.approx(by_hand, rel=1e-9)
    unequal = Angle(30.0, 20.0, 4.0)
    assert unequal.z_plastic_v > unequal.z_plastic_u


def test_torsion_of_thin_legs_tends_to_the_sum_of_b_t3_over_3() -> None:
    assert Angle(100.0, 100.0, 2.0).j == pytest.approx((100 + 98) * 8 / 3, rel=0.01)


@pytest.mark.parametrize(
    ("a", "b", "t", "root", "toe"),
    [(30, 40, 3, 0, 0), (30, 30, 30, 0, 0), (30, 30, 3, 28, 0), (30, 30, 3, 5, 4), (30, 30, 3, -1, 0), (0, 0, 1, 0, 0)],
)
def test_angle_that_cannot_be(a: float, b: float, t: float, root: float, toe: float) -> None:
    with pytest.raises(StockError):
        Angle(a, b, t, root, toe)


def test_symmetry_only_for_equal_legs() -> None:
    assert len(Angle(30.0, 30.0, 3.0).symmetries()) == 2
    assert len(Angle(40.0, 30.0, 3.0).symmetries()) == 1
