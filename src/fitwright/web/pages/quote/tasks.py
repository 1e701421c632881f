"""What is computed aside for the quote: the client's paper, and the shop's own sheet."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from fitwright.assess import Assessment
from fitwright.pricing import Cost, Missing, Price, Weight
from fitwright.pricing.dominating import by_kind, by_step
from fitwright.pricing.price import price_at
from fitwright.sheets.quote import cost_pdf, quote_pictures
from fitwright.sheets.quote.client import money
from fitwright.web.aside import Tell, follows_longer
from fitwright.web.longer import longer_findings


@dataclass(frozen=True)
class ClientQuote:
    """The paper as pictures and as a PDF, or the prices that it lacks; cost: what the shop reckons with."""

    pages: tuple[bytes, ...]
    pdf: bytes
    price: Price
    cost: Decimal
    currency: str
    missing: tuple[Missing, ...] = ()


@dataclass(frozen=True)
class ShopCosts:
    """What the shop's own page tells, and the sheet as a PDF."""

    cost: Cost
    price: Price
    others: tuple[tuple[Price, float], ...]
    kinds: tuple[Weight, ...]
    steps: tuple[Weight, ...]
    pdf: bytes


@follows_longer
def client_quote(assessment: Assessment, tell: Tell) -> ClientQuote:
    """The quote that the client sees."""
    _costed(assessment, tell)
    cost, price = assessment.cost, assessment.price
    if cost.missing:
        return ClientQuote((), b"", price, cost.total, cost.currency, cost.missing)
    tell("drawing the quote", 0.9)
    _, pages, pdf = quote_pictures(assessment)
    return ClientQuote(pages, pdf, price, cost.total, cost.currency)


@follows_longer
def shop_costs_of(assessment: Assessment, tell: Tell) -> ShopCosts:
    """What the job costs the shop."""
    _costed(assessment, tell)
    cost, price, pricing = assessment.cost, assessment.price, assessment.shop.prices.pricing
    others = [price_at(cost.total, margin, pricing) for margin in sorted({*pricing.margins, price.margin})]
    tell("drawing the cost sheet", 0.9)
    return ShopCosts(
        cost,
        price,
        tuple((other, cost.covered_by(other.net)) for other in others),
        by_kind(cost, price.margin, pricing),
        by_step(cost, price.margin, pricing),
        cost_pdf(assessment),
    )


def _costed(assessment: Assessment, tell: Tell) -> None:
    longer_findings(assessment, lambda step, share: tell(step, 0.85 * share))
    tell("adding up", 0.86)
    _ = assessment.price


__all__ = ["ClientQuote", "ShopCosts", "client_quote", "money", "shop_costs_of"]
