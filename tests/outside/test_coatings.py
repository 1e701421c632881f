"""Spread of coatings.

Coatings general-information sheet: 1604 x solids by volume / mils, 1000 x solids by volume / micron; worked: 65 % at
5.0 mils is 208.5 ft2/gal, at 125 micron 5.2 m2/litre. A painting trade magazine: 46 % and 56 % solids at 2.5 mils are
294 and 358 ft2/gal after early rounding (295 and 359 unrounded).
"""

from __future__ import annotations

import pytest

from fitwright.making.finishing.coverage import (
    LITRES_PER_GALLON,
    SQUARE_FEET_PER_GALLON_MIL,
    SQUARE_FEET_PER_M2,
    spread,
    spread_us,
    wet_film,
)


def test_a_gallon_one_mil_thick() -> None:
    assert pytest.approx(1604.17, abs=0.005) == SQUARE_FEET_PER_GALLON_MIL  # 231 in3, 0.001 in


def test_worked_example_in_feet_and_mils() -> None:
    assert spread_us(0.65, 5.0) == pytest.approx(208.5, abs=0.1)


def test_worked_example_in_metres_and_micron() -> None:
    assert spread(0.65, 125.0) == pytest.approx(5.2, abs=1e-12)


@pytest.mark.parametrize(("solids", "published"), [(0.46, 295.0), (0.56, 359.0)])
def test_trade_magazine(solids: float, published: float) -> None:
    assert spread_us(solids, 2.5) == pytest.approx(published, abs=1.0)


def test_wet_film_for_a_dry_one() -> None:
    assert wet_film(5.0, 0.65) == pytest.approx(7.69, abs=0.005)


def test_both_units_say_the_same() -> None:
    metric = spread(0.65, 5.0 * 25.4)
    assert metric * SQUARE_FEET_PER_M2 * LITRES_PER_GALLON == pytest.approx(spread_us(0.65, 5.0), rel=1e-9)


def test_data_sheet_of_an_enamel() -> None:
    """A maker's sheet for a modified alkyd enamel: 42 to 43 % solids, 675 to 690 ft2/gal at 1 mil dry."""
    assert 673.0 < spread_us(0.42, 1.0) < spread_us(0.43, 1.0) < 691.0
