"""Prices at a margin, against worked examples.

Source: Math on Demand, "Selling price after a profit margin is applied" (mathondemand.com/solutions), three examples
read in November 2026: selling price = cost / (1 - margin), markup = profit / cost.
"""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest

from fitwright.pricing import price_at
from fitwright.shop import default_shop

PRICING = replace(default_shop("inch").prices.pricing, price_step=Decimal("0.01"), tax=Decimal(0))
EXAMPLES = [
    ("10", "20", "12.50", "2.50", "25"),
    ("20", "80", "100.00", "80.00", "400"),
    ("70", "30", "100.00", "30.00", "42.86"),
]


@pytest.mark.parametrize(("cost", "margin", "price", "profit", "markup"), EXAMPLES)
def test_worked_examples(cost: str, margin: str, price: str, profit: str, markup: str) -> None:
    told = price_at(Decimal(cost), Decimal(margin) / 100, PRICING)
    assert (told.net, told.earned) == (Decimal(price), Decimal(profit))
    assert round(100 * told.earned / told.cost, 2) == Decimal(markup)
