"""The quote's page."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from decimal import Decimal

import pytest

from fitwright.sheets.drawing import A4
from fitwright.sheets.quote.client import money, quote_drawings, quote_for, sums_told
from fitwright.sheets.quote.strip import Strip
from tests.demos import NAMES, assessed
from tests.stand import stand

DAY = date(2027, 1, 31)


def read(told: str) -> Decimal:
    return Decimal(told.replace("\u00a0", ""))


@pytest.mark.parametrize("name", NAMES)
def test_what_is_read_adds_up(name: str) -> None:
    quote = quote_for(assessed(name), DAY)
    told = {row["what"]: read(row["amount"]) for row in sums_told(quote)}
    lines = [read(row["amount"]) for row in sums_told(quote)[: len(quote.lines)]]
    assert sum(lines) == told["Price"]
    assert told["To pay"] == told["Deposit, before work begins"] + told["Due on delivery"]


def test_a_shop_without_tax_and_deposit_tells_of_none() -> None:
    quote = quote_for(stand(), DAY)
    plain = replace(quote, price=replace(quote.price, tax=Decimal(0), deposit=Decimal(0)))
    assert [row["what"] for row in sums_told(plain)][-1] == "Price"


def test_another_margin() -> None:
    assert quote_for(stand(), DAY, Decimal("0.5")).price.net > quote_for(stand(), DAY).price.net


def test_the_piece_is_in_its_place_where_that_was_surveyed() -> None:
    assert set(quote_drawings(assessed("drying-rack"), A4)(80.0)) == {"arrangement", "place"}
    assert set(quote_drawings(stand(), A4)(80.0)) == {"arrangement"}


@pytest.mark.parametrize("high", [96.0, 48.0])
@pytest.mark.parametrize("name", NAMES)
def test_the_views_stay_in_their_strip(name: str, high: float) -> None:
    found = assessed(name)
    row = Strip(found.meshes, found.job.style, A4.projection).row(180.0, high, A4)
    assert row.paper.width <= 180.0 + 1e-6
    assert row.paper.height <= high + 1e-6
    assert row.views[-1].name == "isometric"


def test_money() -> None:
    assert money(Decimal("1234567.5")) == "1\u00a0234\u00a0567.50"
