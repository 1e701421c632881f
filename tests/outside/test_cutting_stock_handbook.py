"""Published cutting-stock cases with one stock length, and the kerf by arithmetic."""

from __future__ import annotations

from decimal import Decimal

import pytest

from fitwright.making.cutting import Bar, Cut, plan_cuts

PAPER = "1380x22 1520x25 1560x12 1710x14 1820x18 1880x18 1930x20 2000x10 2050x12 2100x14 2140x16 2150x18 2200x20"

CASES = [
    # Wikipedia, Cutting stock problem: 73 rolls of 5600 mm; re-proven by an integer programme over all 213 patterns.
    (5600.0, PAPER, 73),
    # V. Chvatal, Linear Programming (1983), chapter 13: 453 rolls of 100 in; re-proven, relaxation 452.25.
    (100.0, "45x97 36x610 31x395 14x211", 453),
    # A public modelling example (rolls of 6450 mm); proven by an integer programme, relaxation 17.94.
    (6450.0, "677x10 756x40 1746x33 1876x10", 18),
    # A public modelling example (boards of 22 in); proven by an integer programme, relaxation 73.18.
    (22.0, "7x110 5x120 3x80", 74),
]


def cuts(text: str) -> list[Cut]:
    pairs = [word.split("x") for word in text.split()]
    return [Cut(length, float(length), int(count)) for length, count in pairs]


@pytest.mark.parametrize(("stock", "items", "bars"), CASES)
def test_optimum_is_met_and_proven(stock: float, items: str, bars: int) -> None:
    plan = plan_cuts(cuts(items), [Bar("stock", stock, Decimal("2.50"))], seconds=60)
    assert plan.proven
    assert plan.cost == plan.bound == bars * Decimal("2.50")


def test_waste_of_the_paper_case() -> None:
    # 407,160 mm in 73 rolls of 5600 mm: 0.401 % (same source).
    plan = plan_cuts(cuts(PAPER), [Bar("roll", 5600.0, Decimal(1))], seconds=60)
    assert sum(bar.used for bar in plan.bars) == 407_160
    assert plan.waste_fraction == pytest.approx(0.00401, abs=5e-6)


@pytest.mark.parametrize(("end_trim", "bars"), [(0.0, 1), (0.025, 1), (0.026, 2)])
def test_kerf_is_lost_between_the_parts_only(end_trim: float, bars: int) -> None:
    # By arithmetic: 240 in takes 4 parts of 59.9 in with kerf 0.125, 239.6 + 3 x 0.125 = 239.975; four kerfs do not.
    inch = 25.4
    stock = [Bar("20 ft", 240 * inch, Decimal(40))]
    plan = plan_cuts([Cut("A1", 59.9 * inch, 4)], stock, kerf=0.125 * inch, end_trim=end_trim * inch)
    assert plan.proven
    assert len(plan.bars) == bars
    if bars == 1:
        assert plan.bars[0].remnant == 0.0
        assert plan.bars[0].kerf_lost == pytest.approx((0.4 - end_trim) * inch)
