"""Square and rectangular tube, flat and lumber by hand."""

from __future__ import annotations

import pytest

from fitwright.stock import Flat, Lumber, RectTube, StockError
from fitwright.stock.rectangles import rectangle_torsion, rounded_plastic


def test_sharp_tube_is_the_outer_rectangle_less_the_bore() -> None:
    tube = RectTube(60.0, 30.0, 3.0, 0.0)
    assert tube.area == pytest.approx(60 * 30 - 54 * 24)
    assert tube.i_u == pytest.approx((60 * 30**3 - 54 * 24**3) / 12)
    assert tube.i_v == pytest.approx((30 * 60**3 - 24 * 54**3) / 12)
    assert tube.z_plastic_u == pytest.approx((60 * 30**2 - 54 * 24**2) / 4)
    assert tube.z_plastic_v == pytest.approx((30 * 60**2 - 24 * 54**2) / 4)
    assert tube.j == pytest.approx(4 * (57 * 27) ** 2 * 3 / (2 * (57 + 27)))


@pytest.mark.parametrize("radius", [0.0, 1.0, 3.0, 6.0])
def test_rounded_corners_take_off_what_the_corner_pieces_hold(radius: float) -> None:
    tube = RectTube(60.0, 30.0, 3.0, radius)
    assert tube.area == pytest.approx(tube.metal_area)
    assert tube.bore_radius == max(0.0, radius - 3.0)
    assert tube.area <= 60 * 30 - 54 * 24


def test_plastic_modulus_of_a_circle_as_a_rounded_square() -> None:
    assert rounded_plastic(10.0, 10.0, 5.0) == pytest.approx(10**3 / 6)


def test_wider_side_along_u() -> None:
    tube = RectTube(60.0, 30.0, 3.0, 3.0)
    assert tube.extents == (-30, 30, -15, 15)
    assert tube.i_v > tube.i_u
    with pytest.raises(StockError, match="swap"):
        RectTube(30.0, 60.0, 3.0, 3.0)
    with pytest.raises(StockError, match="swap"):
        Flat(5.0, 20.0)


def test_shapes_by_their_sides() -> None:
    assert RectTube(40.0, 40.0, 2.0, 4.0).shape == "square tube"
    assert RectTube(40.0, 20.0, 2.0, 4.0).shape == "rectangular tube"
    assert Flat(20.0, 5.0).shape == "flat"
    assert Flat(12.0, 12.0).shape == "square bar"
    assert Lumber(95.0, 20.0).shape == "lumber"


def test_outline_of_sharp_corners_is_four_points_and_rounded_ones_are_arcs() -> None:
    assert len(Flat(20.0, 5.0).outline()) == 4
    assert len(RectTube(40.0, 40.0, 2.0, 4.0).outline()) == 28
    assert len(RectTube(40.0, 40.0, 2.0, 4.0).outline(12)) == 20
    assert len(RectTube(40.0, 40.0, 4.0, 4.0).bore()) == 4


def test_torsion_of_solid_rectangles() -> None:
    # Timoshenko and Goodier, Theory of Elasticity, 3rd ed., art. 109, table of k1 (from memory)
    for ratio, k1 in [(1.0, 0.1406), (1.5, 0.196), (2.0, 0.229), (3.0, 0.263), (10.0, 0.312)]:
        assert rectangle_torsion(ratio, 1.0) / ratio == pytest.approx(k1, abs=6e-4)
    assert Flat(40.0, 4.0).j == pytest.approx(0.3123 * 40 * 64, rel=1e-3)


def test_flat_by_hand() -> None:
    flat = Flat(30.0, 4.0)
    assert (flat.area, flat.i_u, flat.i_v) == pytest.approx((120.0, 160.0, 9000.0))
    assert (flat.z_plastic_u, flat.z_plastic_v) == (120.0, 900.0)


@pytest.mark.parametrize(
    ("width", "height", "wall", "radius"), [(40, 40, 20, 0), (40, 40, 2, 21), (40, 40, 2, -1), (0, 0, 1, 0)]
)
def test_tube_that_cannot_be(width: float, height: float, wall: float, radius: float) -> None:
    with pytest.raises(StockError):
        RectTube(width, height, wall, radius)
