"""Blocks for the bench at the saw."""

from __future__ import annotations

from decimal import Decimal

import pytest

from fitwright.making.bench import Block
from fitwright.making.blocks_sawn import blocks_sawn, with_more
from fitwright.making.cutting import Bar, Cut, plan_cuts
from fitwright.shop import default_shop
from fitwright.stock import parse_stock

SHOP = default_shop("mm")
PINE = parse_stock("board 45 x 95 mm white pine").label
BLOCKS = (
    Block("S1", 200.0, 2, PINE, False, "between a stop and A1"),
    Block("U1", 500.0, 1, PINE, True, "under B1"),
)
SAW = SHOP.saw_for(parse_stock(PINE))


def test_each_length_has_a_stop_setting_of_its_own_longest_first() -> None:
    found = blocks_sawn(BLOCKS, {}, {}, SHOP)
    assert [(one.stock, one.setting_mm, one.marks, one.quantity) for one in found.groups] == [
        (PINE, 500.0, ("U1",), 1), (PINE, 200.0, ("S1",), 2),
    ]  # fmt: skip


def test_what_the_parts_leave_over_goes_first_and_costs_nothing() -> None:
    parts = plan_cuts([Cut("F1", 1000.0, 1)], [Bar(PINE, 2400.0, Decimal(9))], SAW.kerf, SAW.end_trim)
    drop = parts.bars[0].remnant
    assert drop > 500 + 2 * 200 + 3 * SAW.kerf + SAW.end_trim
    found = blocks_sawn(BLOCKS, {PINE: parts}, {}, SHOP)
    assert found.plans[PINE].cost == 0
    assert found.bought == {}
    (bar,) = found.plans[PINE].bars
    assert bar.bar.length == pytest.approx(drop, abs=1e-3)
    assert len(bar.cuts) == 3


def test_where_nothing_is_left_a_bar_is_bought_and_joins_the_buying() -> None:
    parts = plan_cuts([Cut("F1", 2350.0, 1)], [Bar(PINE, 2400.0, Decimal(9))], SAW.kerf, SAW.end_trim)
    found = blocks_sawn(BLOCKS, {PINE: parts}, {}, SHOP)
    assert sum(count for _, count in found.plans[PINE].buy) == 1
    both = with_more({PINE: parts}, found.bought)[PINE]
    assert len(both.bars) == 2
    assert both.cost == parts.cost + found.plans[PINE].cost
    assert list(with_more({}, found.bought)) == [PINE]


def test_an_offcut_that_the_parts_use_up_is_not_used_again() -> None:
    tube = parse_stock("round tube 32 x 2 mm")
    offcuts = [bar for bar in SHOP.bars_for(tube) if bar.offcut]
    hand = Bar(offcuts[0].label, offcuts[0].length, offcuts[0].price, offcuts[0].on_hand, True)
    parts = plan_cuts([Cut("A1", hand.length - 20, 1)], [hand], 2.5, 5.0)
    metal = (Block("S9", 15.0, 1, tube.label, False, "between a stop and A1"),)
    used = blocks_sawn(metal, {tube.label: parts}, {}, SHOP).plans[tube.label].bars
    assert hand.length not in [bar.bar.length for bar in used]


def test_no_blocks_are_nothing_to_saw() -> None:
    found = blocks_sawn((), {}, {}, SHOP)
    assert (found.groups, found.plans, found.bought) == ((), {}, {})
