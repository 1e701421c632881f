"""Mass of stock."""

from __future__ import annotations

import pytest

from fitwright.stock import StockError, parse_stock


def test_mass_per_metre_from_the_nominal_wall() -> None:
    assert parse_stock("round bar 20 mm").mass_per_m == pytest.approx(2.466, abs=1e-3)
    assert parse_stock("pipe 1 sch 40").mass_per_m == pytest.approx(1.68 * 1.48816, rel=0.002)


def test_sheet_is_sold_by_area() -> None:
    sheet = parse_stock("plate 10 mm")
    assert sheet.mass_per_m2 == pytest.approx(78.5)
    with pytest.raises(StockError, match="by area"):
        _ = sheet.mass_per_m
    with pytest.raises(StockError, match="by length"):
        _ = parse_stock("flat 20 x 5").mass_per_m2
