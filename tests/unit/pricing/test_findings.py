"""What is said of the price."""

from __future__ import annotations

from decimal import Decimal

from fitwright.findings import Verdict
from fitwright.job import parse_job
from fitwright.pricing import price_at, price_findings
from tests.stand import SHOP, TEXT, stand

PRICING = SHOP.prices.pricing


def verdicts(text: str, margin: str = "0.2") -> dict[str, Verdict]:
    cost = stand().cost
    price = price_at(cost.total, Decimal(margin), PRICING)
    return {one.check: one.verdict for one in price_findings(cost, price, parse_job(text))}


def test_over_the_budget() -> None:
    assert verdicts(TEXT)["price with tax within the budget"] is Verdict.FAILS
    assert verdicts(TEXT.replace("budget: 900", "budget: 1200"))["price with tax within the budget"] is Verdict.TIGHT
    assert verdicts(TEXT.replace("budget: 900", "budget: 2000"))["price with tax within the budget"] is Verdict.HOLDS


def test_without_a_budget_nothing_is_held_against_it() -> None:
    assert list(verdicts(TEXT.replace(", budget: 900", ""))) == ["chance that the price covers the cost"]


def test_a_margin_of_nothing_does_not_cover_the_hours() -> None:
    assert verdicts(TEXT, "0")["chance that the price covers the cost"] is Verdict.FAILS
    assert verdicts(TEXT, "0.3")["chance that the price covers the cost"] is Verdict.HOLDS
