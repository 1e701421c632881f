"""Material as bought, less what is worth keeping."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest

from fitwright.making.blocks_sawn import DROP
from fitwright.making.cutting import Bar, Cut, plan_cuts
from fitwright.pricing import Bought, Kind
from fitwright.pricing.material import Lines, add_bars, add_goods, usable, worth_of
from fitwright.shop import StockLength
from fitwright.stock import parse_stock
from fitwright.units import Style
from tests.stand import SHOP, with_pricing

STYLE = Style.metric()
TUBE = parse_stock("square tube 25 x 25 x 2", unit="mm")
LABEL = TUBE.label
PLAIN = with_pricing(SHOP, usable=300.0, offcut_value=Decimal("0.5"))
SIX = Bar(LABEL, 6000.0, Decimal("28.00"))


def test_a_bar_less_its_drop() -> None:
    """By hand: 6 m for 28; 3.6 m cut, 2.4 m kept, worth half of 28 / 6 x 2.4 = 5.60."""
    found = Lines(PLAIN)
    add_bars(found, {LABEL: plan_cuts([Cut("A1", 3600.0, 1)], [SIX])}, {LABEL: TUBE}, STYLE)
    assert [(line.kind, line.amount) for line in found.lines] == [
        (Kind.MATERIAL, Decimal("28.00")),
        (Kind.MATERIAL, Decimal("-5.60")),
    ]


def test_a_short_drop_is_scrap() -> None:
    found = Lines(PLAIN)
    add_bars(found, {LABEL: plan_cuts([Cut("A1", 5800.0, 1)], [SIX])}, {LABEL: TUBE}, STYLE)
    assert [line.amount for line in found.lines] == [Decimal("28.00")]


def test_an_offcut_of_the_rack_costs_what_it_was_worth() -> None:
    """By hand: 1.2 m of 28 for 6 m, at a half: 2.80. All of it is used."""
    rack = Bar(LABEL, 1200.0, Decimal(0), 1, True)
    found = Lines(PLAIN)
    add_bars(found, {LABEL: plan_cuts([Cut("A1", 1200.0, 1)], [SIX, rack])}, {LABEL: TUBE}, STYLE)
    (line,) = found.lines
    assert (line.amount, "from the rack" in line.what) == (Decimal("2.80"), True)


def test_a_drop_is_counted_once_whether_it_is_kept_or_sawn_into_blocks() -> None:
    """Kept as a drop of the parts and taken again for blocks it is worth nothing; short ones never were."""
    for length, amounts in ((2400.0, [Decimal("28.00"), Decimal("5.60"), Decimal("-5.60")]), (200.0, [])):
        drop = Bar(DROP, length, Decimal(0), 1, True)
        blocks = plan_cuts([Cut("B1", length, 1)], [drop])
        parts = plan_cuts([Cut("A1", 6000.0 - length, 1)], [SIX]) if length > 300 else blocks
        both = replace(parts, bars=(*parts.bars, *blocks.bars)) if length > 300 else blocks
        found = Lines(PLAIN)
        add_bars(found, {LABEL: both}, {LABEL: TUBE}, STYLE)
        assert [line.amount for line in found.lines] == amounts


def test_a_part_longer_than_every_bar_lacks_a_price() -> None:
    found = Lines(PLAIN)
    add_bars(found, {}, {LABEL: TUBE}, STYLE)
    assert not found.lines
    assert "long enough" in found.missing[0].what


def test_worth_goes_by_the_dearest_bar() -> None:
    bars = (StockLength(LABEL, 3000.0, Decimal(30)), StockLength(LABEL, 6000.0, Decimal(48)))
    shop = replace(PLAIN, stock_lengths=bars)
    assert worth_of(shop, TUBE, 1000.0) == Decimal(5)


def test_usable_longest_first() -> None:
    plan = plan_cuts([Cut("A1", 3600.0, 1), Cut("A2", 5000.0, 1)], [SIX])
    assert usable(plan.bars, 500.0) == (2400.0, 1000.0)


def test_hardware_without_a_price_is_missing_and_not_nothing() -> None:
    found = Lines(PLAIN)
    bought = [
        Bought("levelling foot", "", 4, Decimal("1.25"), "price in the job file"),
        Bought("brass plate", "", 1, None, "no price given"),
        Bought("plywood", "2440 x 1220", 1, Decimal(60), "listed"),
        Bought(LABEL, "6000 mm", 1, Decimal(28), "listed"),
    ]
    add_goods(found, bought, {LABEL: plan_cuts([], [SIX])})
    assert [(line.kind, line.amount) for line in found.lines] == [
        (Kind.HARDWARE, Decimal("5.00")),
        (Kind.MATERIAL, Decimal(60)),
    ]
    (missing,) = found.missing
    assert "brass plate" in missing.what
    assert "hardware in the shop file" in missing.where


def test_amounts_are_rounded_as_the_shop_rounds() -> None:
    found = Lines(with_pricing(PLAIN, smallest=Decimal("0.05")))
    add_goods(found, [Bought("screw", "", 3, Decimal("0.12"), "")], {})
    assert found.lines[0].amount == pytest.approx(Decimal("0.35"))
