"""Rounding to a coin, against published examples.

Sources: IEEE 754-2019, 4.3, roundTiesToEven, as Python's decimal module has it (General Decimal Arithmetic
Specification 1.70, round-half-even); the examples of dinero.js, "halfEven" (dinerojs.com/api/rounding/half-even), read
in November 2026: 1.5 is 2, 2.5 is 2, 3.5 is 4, -2.5 is -2; 3.05 at 21 % is 0.6405, 0.64 in coins.
"""

from __future__ import annotations

from dataclasses import replace
from decimal import ROUND_HALF_EVEN, ROUND_HALF_UP, Decimal

import pytest

from fitwright.shop import Pricing, default_shop


def shop(rounding: str, coin: str) -> Pricing:
    return replace(default_shop("inch").prices.pricing, rounding=rounding, smallest=Decimal(coin))


@pytest.mark.parametrize(("amount", "coins"), [("1.5", "2"), ("2.5", "2"), ("3.5", "4"), ("-2.5", "-2")])
def test_half_even(amount: str, coins: str) -> None:
    assert shop("half even", "1").coins(Decimal(amount)) == Decimal(coins)


def test_a_tax_of_21_per_cent() -> None:
    assert shop("half even", "0.01").coins(Decimal("3.05") * Decimal("0.21")) == Decimal("0.64")


@pytest.mark.parametrize(("name", "mode"), [("half even", ROUND_HALF_EVEN), ("half up", ROUND_HALF_UP)])
def test_cents_as_the_decimal_module_quantizes(name: str, mode: str) -> None:
    pricing = shop(name, "0.01")
    for thousandths in range(-2050, 2051, 5):
        amount = Decimal(thousandths).scaleb(-3)
        assert pricing.coins(amount) == amount.quantize(Decimal("0.01"), mode)
