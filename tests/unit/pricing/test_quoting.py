"""The quote as the client reads it."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

import pytest

from fitwright.assess import assess
from fitwright.job import parse_job
from fitwright.pricing import PriceMissing, Quote, price_at, quote_of
from fitwright.pricing.quoting import client_lines
from tests.demos import assessed
from tests.stand import SHOP, TEXT, missing, stand, with_prices, with_pricing

DAY = date(2027, 1, 31)


def quote(name: str) -> Quote:
    found = assessed(name)
    return quote_of(found.cost, found.price, found.job, found.shop, found.piece, DAY)


def test_its_lines_add_up_to_the_price() -> None:
    for name in ("drying-rack", "coat-rail", "workbench"):
        told = quote(name)
        assert sum(amount for _, amount in told.lines) == told.price.net


def test_it_stands_as_long_as_the_shop_says() -> None:
    assert quote("coat-rail").valid_until == date(2027, 3, 2)


def test_scope_says_what_is_made() -> None:
    scope = " ".join(quote("drying-rack").scope)
    for words in ("round tube 1 1/8 x 16 ga", "4 × shelf of eastern white pine, lifting out", "4 × 3 in swivel caster"):
        assert words in scope
    assert "rags" not in scope


def test_care_is_of_what_the_piece_has() -> None:
    assert any("casters" in line for line in quote("drying-rack").care)
    assert not any("casters" in line.lower() or "timber" in line.lower() for line in quote("coat-rail").care)


def test_the_jobs_own_lines_come_before_the_shops() -> None:
    job = parse_job(TEXT + "price: {excluded: [the old stand], scope: [carried up]}\n")
    found = assess(job, SHOP)
    told = quote_of(found.cost, found.price, job, SHOP, found.piece, DAY)
    assert told.excluded[0] == "the old stand"
    assert told.scope[-1] == "carried up"


def test_no_quote_without_all_prices() -> None:
    poor = with_prices(SHOP, paint=missing(SHOP.prices.paint, "primer"))
    found = assess(stand().job, poor)
    with pytest.raises(PriceMissing, match=r"tin of primer .*under paint in the shop file"):
        quote_of(found.cost, found.price, found.job, poor, found.piece, DAY)


def test_a_coin_larger_than_the_step_of_the_price() -> None:
    """Lines in coins of 5 cannot make up a price of 7: they are told in the digits of the price."""
    pricing = with_pricing(SHOP, smallest=Decimal(5), price_step=Decimal("0.5")).prices.pricing
    price = price_at(Decimal("700.20"), Decimal(0), pricing)
    lines = client_lines(stand().cost, price, pricing)
    assert sum(amount for _, amount in lines) == price.net == Decimal("700.5")
