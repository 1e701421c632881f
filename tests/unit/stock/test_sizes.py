"""Nominal sizes and what they measure."""

from __future__ import annotations

from fractions import Fraction

import pytest

from fitwright.stock import StockError, dressed, pipe_size, surfaced
from fitwright.stock.sizes import design_wall, panel_thickness
from fitwright.units import INCH


def test_pipe_by_size_and_schedule() -> None:
    pipe = pipe_size("1 1/4", "40")
    assert pipe.od == pytest.approx(1.660 * INCH)
    assert pipe.wall == pytest.approx(0.140 * INCH)
    assert pipe.design_wall == pytest.approx(0.130 * INCH)
    assert pipe_size("1-1/4", "std") == pipe
    assert pipe_size("DN 32", "40S") == pipe
    assert pipe_size("1", "xs") == pipe_size("1", "80")


def test_pipe_that_is_not_made() -> None:
    with pytest.raises(StockError, match="nominal pipe size"):
        pipe_size("7")
    with pytest.raises(StockError, match="sch 40, 80"):
        pipe_size("1/4", "160")
    with pytest.raises(StockError):
        pipe_size("1/0")


def test_design_wall_as_tabulated() -> None:
    assert design_wall(0.125 * INCH) / INCH == pytest.approx(0.116)
    assert design_wall(0.154 * INCH) / INCH == pytest.approx(0.143)


def test_dressed_lumber() -> None:
    assert dressed(Fraction(1), Fraction(4)) == pytest.approx((19.05, 88.9))
    assert dressed(Fraction(2), Fraction(8)) == pytest.approx((38.1, 184.15))
    assert dressed(Fraction(5, 4), Fraction(6)) == pytest.approx((25.4, 139.7))
    assert dressed(Fraction(1), Fraction(4), green=True) == pytest.approx((25.4 * 25 / 32, 25.4 * 3.5625))
    with pytest.raises(StockError, match="nominal lumber size"):
        dressed(Fraction(2), Fraction(7))


def test_hardwood_quarters() -> None:
    assert surfaced("8/4") == pytest.approx(1.75 * INCH)
    with pytest.raises(StockError, match="4/4"):
        surfaced("7/4")


def test_plywood() -> None:
    assert panel_thickness(Fraction(3, 4)) == pytest.approx(23 / 32 * INCH)
    assert panel_thickness(Fraction(1, 8)) is None
