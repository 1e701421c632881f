"""The sections of a shop file about money: what is read, and what is said of mistakes."""

from __future__ import annotations

from decimal import Decimal

import pytest

from fitwright.shop import ShopError, default_shop, shop_from_text
from fitwright.shop.read import shipped_profile

HEAD = "name: Shed\nunit: mm\ncurrency: EUR\n"
PRICING = """pricing:
  margin: 25 %
  margins: [10 %, 25 %, 40 %]
  overhead: 0 %
  tax: {name: VAT, rate: 19 %}
  deposit: 30 %
  usable_offcut: 250
  offcut_value: 50 %
  step_spread: 20 %
  job_spread: 5 %
"""


def test_what_is_left_out_is_the_shipped_profiles() -> None:
    shop = shop_from_text(HEAD + PRICING, "shop.yaml")
    pricing = shop.prices.pricing
    assert (pricing.margin, pricing.tax, pricing.tax_name) == (Decimal("0.25"), Decimal("0.19"), "VAT")
    assert (pricing.smallest, pricing.rounding, pricing.price_step) == (Decimal("0.01"), "half even", Decimal(1))
    assert shop.prices.consumables == default_shop("mm").prices.consumables


def test_a_price_may_be_a_number_or_a_map() -> None:
    told = HEAD + "consumables: {clean rags: 0.40, welding wire: {price: 9, per: kg}}\n"
    prices = shop_from_text(told, "shop.yaml").prices.consumables
    assert (prices["clean rags"].price, prices["clean rags"].per) == (Decimal("0.40"), "piece")
    assert (prices["welding wire"].price, prices["welding wire"].per) == (Decimal(9), "kg")
    assert "flap disc" not in prices


@pytest.mark.parametrize("unit", ["inch", "mm"])
def test_the_shipped_prices_say_that_they_are_invented(unit: str) -> None:
    text = shipped_profile(unit)  # type: ignore[arg-type]
    assert "All of this is invented" in text
    shop = shop_from_text(text, "shipped")
    assert len(shop.prices.pricing.margins) == 3
    assert {"saw", "timber saw", "bender", "bench"} <= set(shop.prices.machine_rates)


@pytest.mark.parametrize(
    ("wrong", "said"),
    [
        (PRICING.replace("margin: 25 %", "margin: 25"), "write it as 20 %"),
        (PRICING.replace("margin: 25 %", "margin: 100 %"), "less than 1"),
        (PRICING.replace("[10 %, 25 %, 40 %]", "[10 %]"), "at least 3"),
        (PRICING.replace("deposit: 30 %", "deposit: 130 %"), "less than or equal to 1"),
        (PRICING + "  rounding: up\n", "'up' is not known"),
        (PRICING + "  profit: 3\n", "'profit' is not known here"),
        ("consumables: {welding wire: {price: 9, per: spool}}\n", "'spool' is not known"),
        ("consumables: {welding wire: {prize: 9}}\n", "'prize' is not known here"),
        ("delivery: {each: 20, per_distance: 1, unit: km, usual: -3}\n", "greater than or equal to 0"),
        ("paint: {enamel: {pint: -1}}\n", "greater than or equal to 0"),
    ],
)
def test_mistakes_are_told_in_words(wrong: str, said: str) -> None:
    with pytest.raises(ShopError) as raised:
        shop_from_text(HEAD + wrong, "shop.yaml")
    assert said in str(raised.value)
