"""Gauge numbers mean different things for tube and for each sheet."""

from __future__ import annotations

import pytest

from fitwright.stock import StockError, sheet_gauge, tube_gauge
from fitwright.stock.gauges import gauge_of
from fitwright.units import INCH


def test_the_same_number_by_what_it_is_made_of() -> None:
    assert tube_gauge(14) == pytest.approx(0.083 * INCH)
    assert tube_gauge(16) == pytest.approx(0.065 * INCH)
    assert tube_gauge(11) == pytest.approx(0.120 * INCH)
    assert sheet_gauge(14) == pytest.approx(0.0747 * INCH)
    assert sheet_gauge(16, "stainless") == pytest.approx(INCH / 16)
    assert sheet_gauge(16, "galvanised") > sheet_gauge(16)


@pytest.mark.parametrize("number", range(7, 27))
def test_aluminium_follows_the_brown_and_sharpe_rule(number: int) -> None:
    # ASTM B258: diameter 0.005 in x 92^((36 - n) / 39)
    assert sheet_gauge(number, "aluminium") / INCH == pytest.approx(0.005 * 92 ** ((36 - number) / 39), abs=6e-5)


@pytest.mark.parametrize("table", ["tube", "steel", "galvanised", "stainless", "aluminium"])
def test_a_higher_number_is_thinner(table: str) -> None:
    walls = [tube_gauge(n) if table == "tube" else sheet_gauge(n, table) for n in range(8, 27)]
    assert walls == sorted(walls, reverse=True)


def test_back_to_the_number() -> None:
    assert gauge_of(0.065 * INCH, "tube") == 16
    assert gauge_of(0.125 * INCH, "tube") is None


def test_unknown_numbers_and_tables() -> None:
    with pytest.raises(StockError, match="7 to 26 ga"):
        tube_gauge(3)
    with pytest.raises(StockError, match="gauge table for 'brass'"):
        sheet_gauge(16, "brass")
    with pytest.raises(StockError):
        sheet_gauge(16, "gauge")
