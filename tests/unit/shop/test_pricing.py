"""Prices, units and rounding of a shop."""

from __future__ import annotations

from decimal import Decimal

import pytest

from fitwright.shop.pricing import UNITS_SOLD, Delivery, UnitPrice
from tests.stand import SHOP, with_pricing

KM_14 = Decimal(14)


def test_a_pound_and_a_kilogram_cost_the_same_wire() -> None:
    """NIST Handbook 44, Appendix C: 1 lb is 0.453 592 37 kg."""
    each = UnitPrice(Decimal("0.45359237"), "lb").for_one("kg")
    assert each == 1


def test_a_price_by_weight_is_none_by_volume() -> None:
    assert UnitPrice(Decimal(1), "kg").for_one("litre") is None


@pytest.mark.parametrize("unit", UNITS_SOLD)
def test_every_unit_is_sold_by_itself(unit: str) -> None:
    assert UnitPrice(Decimal(3), unit).for_one(unit) == 3


def test_the_usual_way_where_the_job_says_none() -> None:
    delivery = Delivery(Decimal(20), Decimal(1), "mile", Decimal(8))
    assert delivery.way(None) == 8
    assert round(delivery.way(KM_14), 3) == Decimal("8.699")


@pytest.mark.parametrize(
    ("rounding", "amount", "coins"),
    [("half even", "2.345", "2.34"), ("half even", "2.355", "2.36"), ("half up", "2.345", "2.35")],
)
def test_rounding_is_the_shops(rounding: str, amount: str, coins: str) -> None:
    pricing = with_pricing(SHOP, rounding=rounding).prices.pricing
    assert pricing.coins(Decimal(amount)) == Decimal(coins)


def test_a_coin_of_five_cents() -> None:
    pricing = with_pricing(SHOP, smallest=Decimal("0.05")).prices.pricing
    assert pricing.coins(Decimal("2.37")) == Decimal("2.35")
    assert pricing.coins(Decimal("2.38")) == Decimal("2.40")
