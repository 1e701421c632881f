"""What slides inside what."""

from __future__ import annotations

from math import sqrt

import pytest

from fitwright.stock import (
    Angle,
    Flat,
    RectTube,
    RoundBar,
    RoundTube,
    StockError,
    fits_inside,
    parse_stock,
    sleeves_for,
)
from fitwright.stock.sleeves import BEAD, Fit, fit_of, weld_bead


def test_round_in_round_is_bore_less_outside_less_bead() -> None:
    assert fits_inside(RoundTube(28.0, 2.0), RoundTube(32.0, 1.5)) == pytest.approx(1.0 - BEAD)
    assert fits_inside(RoundBar(28.0), RoundTube(32.0, 1.5), bead=False) == pytest.approx(1.0)
    assert fits_inside(RoundTube(30.0, 2.0), RoundTube(32.0, 1.5)) < 0


def test_the_bore_is_that_of_the_nominal_wall() -> None:
    assert fits_inside(RoundBar(20.0), RoundTube(30.0, 4.0, 3.5), bead=False) == pytest.approx(2.0)


def test_square_in_square_with_its_corners() -> None:
    outer = RectTube(40.0, 40.0, 2.0, 4.0)
    assert fits_inside(RectTube(35.0, 35.0, 2.0, 4.0), outer, bead=False) == pytest.approx(1.0)
    # a sharp bar that clears the flats by 0.5 all round meets the bore's corner radius of 2 first
    bar = fits_inside(Flat(35.0, 35.0), outer, bead=False)
    assert bar == pytest.approx(2 * (2 - sqrt(2) * 1.5))
    assert bar < 0


def test_round_in_square_and_square_in_round() -> None:
    assert fits_inside(RoundTube(35.0, 2.0), RectTube(60.0, 40.0, 2.0, 4.0), bead=False) == pytest.approx(1.0)
    assert fits_inside(Flat(20.0, 20.0), RoundTube(34.0, 2.0), bead=False) == pytest.approx(30 - 20 * sqrt(2))


def test_angle_in_round_by_its_corners() -> None:
    assert fits_inside(Angle(20.0, 20.0, 3.0), RoundTube(34.0, 2.0), bead=False) == pytest.approx(30 - 20 * sqrt(2))


def test_no_bore_no_sleeve() -> None:
    with pytest.raises(StockError, match="no bore"):
        fits_inside(RoundBar(5.0), RoundBar(20.0))
    with pytest.raises(StockError, match="no bore"):
        sleeves_for(parse_stock("flat 20 x 5"))
    assert weld_bead(RoundBar(5.0)) == 0.0


@pytest.mark.parametrize(
    ("clearance", "over_bead", "fit"),
    [
        (0.1, 0.354, Fit.SNUG),
        (-0.1, 0.154, Fit.SNUG),
        (-0.25, 0.004, None),
        (0.6, 0.854, Fit.SLIDING),
        (2.0, 2.254, Fit.LOOSE),
        (5.0, 5.254, None),
    ],
)
def test_fits(clearance: float, over_bead: float, fit: Fit | None) -> None:
    assert fit_of(clearance, over_bead) is fit


def test_sleeves_for_round_tube_closest_first() -> None:
    found = sleeves_for(parse_stock("round tube 1 1/4 x 16 ga"))
    assert found
    usable = [sleeve.clearance for sleeve in found if not sleeve.file_bead]
    assert usable == sorted(usable)
    assert all(sleeve.stock.section.is_round for sleeve in found)
    assert {sleeve.stock.material.kind for sleeve in found} == {"steel"}


def test_square_telescoping_tube() -> None:
    # common practice: 1 1/4 in square goes tightly into 1 1/2 in x 11 ga square
    found = {sleeve.stock.label: sleeve for sleeve in sleeves_for(parse_stock("square tube 1 1/2 x 11 ga"))}
    assert found["square tube 1 1/4 x 14 ga"].fit is Fit.SNUG


def test_sleeves_of_the_tubes_own_metal() -> None:
    found = sleeves_for(parse_stock("round tube 32 x 1.5 mm stainless 316"))
    assert {sleeve.stock.material.name for sleeve in found} == {"stainless 316"}


def test_own_catalogue() -> None:
    shelf = (
        parse_stock("round tube 28 x 2 mm"),
        parse_stock("round bar 28 mm stainless"),
        parse_stock("square bar 20 mm"),
    )
    found = sleeves_for(parse_stock("round tube 32 x 1.5 mm"), shelf)
    assert [sleeve.stock.label for sleeve in found] == ["round tube 28 x 2 mm"]
    assert found[0].fit is Fit.SLIDING
    assert found[0].over_bead == pytest.approx(1.0)
