from __future__ import annotations

from dataclasses import replace
from datetime import date
from decimal import Decimal

import pytest

from fitwright.shop import default_shop
from fitwright.shop.records import Built, OnHand, Price, Purchase
from fitwright.shop.records.keeping import Records
from fitwright.shop.records.rack import AlreadyBuilt, BarUsed, NotOnRack, use_up, with_rack
from fitwright.stock import parse_stock
from tests.unit.shop.records.samples import DAY, OFFCUT, TUBE


def test_what_is_on_the_rack_can_be_cut_from() -> None:
    shop = default_shop("inch")
    bars = with_rack(shop, [OFFCUT, replace(OFFCUT, count=0, length=99.0)], []).bars_for(parse_stock(TUBE, unit="inch"))
    ours = [bar for bar in bars if bar.basis == "on the rack, by the records"]
    assert [(bar.length, bar.on_hand, bar.price, bar.offcut) for bar in ours] == [(1130.3, 2, Decimal("4.25"), True)]
    assert len(bars) == len(shop.bars_for(parse_stock(TUBE, unit="inch"))) + 1


def test_the_newest_price_takes_the_place_of_the_listed_one() -> None:
    shop = default_shop("inch")
    prices = [
        Price(date(2027, 1, 2), TUBE, 6096.0, Decimal("41.00")),
        Price(date(2027, 1, 1), TUBE, 6096.0, Decimal("39.00")),
        Price(date(2027, 1, 1), TUBE, 3048.0, Decimal("22.00")),
    ]
    bars = [bar for bar in with_rack(shop, [], prices).bars_for(parse_stock(TUBE, unit="inch")) if bar.on_hand is None]
    assert sorted((round(bar.length), bar.price) for bar in bars) == [
        (3048, Decimal("22.00")), (6096, Decimal("41.00")), (7315, Decimal("45.00")),
    ]  # fmt: skip


BARS = (
    BarUsed(TUBE, 1130.3, 30.0, True, "H7431"),
    BarUsed(TUBE, 6096.0, 812.04, False),
    BarUsed(TUBE, 6096.0, 812.04, False),
    BarUsed(TUBE, 6096.0, 299.0, False),
)


def test_building_takes_bars_off_and_puts_usable_offcuts_on(records: Records) -> None:
    held = records.add(OFFCUT)
    done = use_up(records, "Drying rack", BARS, DAY)
    assert done.taken == BARS[:1]
    assert done.not_recorded == ()
    assert done.scrap == 2
    left, put = records.all(OnHand)
    assert left == replace(held, count=1, version=2)
    assert (put.label, put.length, put.count, put.price) == (TUBE, 812.0, 2, Decimal(0))
    assert put.note == "left from Drying rack"
    assert records.all(Built)[0] == Built(DAY, "Drying rack", 1, 2, id=1, version=1)


def test_bars_alike_count_as_one_wherever_they_lie() -> None:
    stock = [OFFCUT, replace(OFFCUT, place="bin", count=3), replace(OFFCUT, price=Decimal("5.00"))]
    ours = [
        bar for bar in with_rack(default_shop("inch"), stock, []).stock_lengths if bar.basis.startswith("on the rack")
    ]
    assert [(bar.on_hand, bar.price) for bar in ours] == [(5, Decimal("4.25")), (2, Decimal("5.00"))]


def test_bars_that_were_bought_are_kept_as_purchases(records: Records) -> None:
    bars = [replace(bar, price=Decimal("38.00")) for bar in BARS[1:]]
    done = use_up(records, "Drying rack", bars, DAY, bought=True)
    assert done.bought == records.all(Purchase)
    assert done.bought == (Purchase(DAY, TUBE, 3, Decimal("38.00"), 6096.0, job="Drying rack", id=1, version=1),)


def test_a_job_is_taken_off_once(records: Records) -> None:
    records.add(OFFCUT)
    use_up(records, "Drying rack", BARS, DAY)
    with pytest.raises(AlreadyBuilt, match="2027-02-03: say so"):
        use_up(records, "Drying rack", BARS, DAY)
    use_up(records, "Drying rack", BARS, DAY, again=True)
    assert records.all(OnHand)[0].count == 0


def test_a_bar_that_somebody_has_used_leaves_everything_as_it_was(records: Records) -> None:
    records.add(replace(OFFCUT, count=0))
    with pytest.raises(NotOnRack, match="somebody has used it"):
        use_up(records, "Drying rack", BARS, DAY)
    assert records.all(Built) == ()
    assert len(records.all(OnHand)) == 1


def test_offcuts_that_only_the_shop_file_lists_are_told(records: Records) -> None:
    done = use_up(records, "Drying rack", BARS[:1], DAY)
    assert done.not_recorded == BARS[:1]
    assert done.taken == ()
