"""From cost to price."""

from __future__ import annotations

from decimal import Decimal

import pytest

from fitwright.job import parse_job
from fitwright.pricing import PricingError, own_margin, price_at
from fitwright.pricing.price import stepped
from tests.stand import SHOP, TEXT, with_pricing


def test_by_hand() -> None:
    """1000 at 20 % is 1250; 20 % of tax is 250; half of 1500 is due before."""
    price = price_at(Decimal(1000), Decimal("0.2"), SHOP.prices.pricing)
    assert (price.net, price.tax, price.total) == (Decimal(1250), Decimal(250), Decimal(1500))
    assert (price.deposit, price.balance, price.earned) == (Decimal(750), Decimal(750), Decimal(250))


def test_rounding_up_only_ever_gives_more() -> None:
    price = price_at(Decimal("1000.01"), Decimal("0.2"), SHOP.prices.pricing)
    assert price.net == 1255
    assert price.earned / price.net > price.margin


def test_without_tax_and_deposit() -> None:
    pricing = with_pricing(SHOP, tax=Decimal(0), deposit=Decimal(0)).prices.pricing
    price = price_at(Decimal(400), Decimal(0), pricing)
    assert (price.total, price.deposit, price.balance) == (Decimal(400), Decimal(0), Decimal(400))


@pytest.mark.parametrize("margin", ["1", "1.5", "-0.1"])
def test_margins_that_cannot_be(margin: str) -> None:
    with pytest.raises(PricingError, match="share of the price"):
        price_at(Decimal(100), Decimal(margin), SHOP.prices.pricing)


def test_the_jobs_margin_before_the_shops() -> None:
    assert own_margin(parse_job(TEXT), SHOP) == Decimal("0.2")
    assert own_margin(parse_job(TEXT + "price: {margin: 35 %}\n"), SHOP) == Decimal("0.35")


def test_steps() -> None:
    assert stepped(Decimal("0.01"), Decimal(5)) == 5
    assert stepped(Decimal(0), Decimal(5)) == 0
    assert stepped(Decimal("10.004"), Decimal("0.01")) == Decimal("10.01")
