from __future__ import annotations

from decimal import Decimal

from fitwright.making.cutting import Bar, Cut, plan_cuts
from fitwright.making.cutting.taking import bars_used
from fitwright.shop.records.rack import BarUsed

BARS = (Bar("6 m", 6000.0, Decimal(40)), Bar("rack", 900.0, Decimal(0), 1, True))


def test_bars_of_the_rack_are_told_from_bought_ones() -> None:
    plans = {"tube": plan_cuts([Cut("A", 800.0), Cut("B", 5500.0)], BARS, kerf=3.0)}
    used = bars_used(plans, {}, {"tube": "H1"}, "drop")
    assert sorted(used, key=lambda bar: bar.length) == [
        BarUsed("tube", 900.0, 97.0, True, "H1"), BarUsed("tube", 6000.0, 497.0, False, "H1", Decimal(40)),
    ]  # fmt: skip


def test_what_is_cut_from_drops_afterwards_leaves_less_of_them() -> None:
    plans = {"tube": plan_cuts([Cut("B", 5000.0)], BARS[:1], kerf=3.0)}
    drop = Bar("drop", 997.0, Decimal(0), 1, True)
    later = {"tube": plan_cuts([Cut("block", 300.0)], [drop, BARS[0]], kerf=3.0),
             "wood": plan_cuts([Cut("block", 90.0)], [Bar("2 m", 2000.0, Decimal(5))], kerf=3.0)}  # fmt: skip
    assert bars_used(plans, later, {}, "drop") == (
        BarUsed("tube", 6000.0, 694.0, False, price=Decimal(40)),
        BarUsed("wood", 2000.0, 1907.0, False, price=Decimal(5)),
    )  # fmt: skip
