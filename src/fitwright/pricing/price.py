"""From cost to price: margin, rounding, tax, deposit."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import ROUND_CEILING, Decimal

from fitwright.job.model import Job
from fitwright.pricing.errors import PricingError
from fitwright.shop import Pricing, Shop

ONE = Decimal(1)


@dataclass(frozen=True)
class Price:
    """What the client pays.

    net: before tax; tax on it; deposit: of the total, due before work begins. margin: as asked; earned: what is left of
    the net price after the cost, which rounding up makes a little more.
    """

    cost: Decimal
    margin: Decimal
    net: Decimal
    tax: Decimal
    deposit: Decimal

    @property
    def total(self) -> Decimal:
        """With tax."""
        return self.net + self.tax

    @property
    def balance(self) -> Decimal:
        """What is due when it is delivered."""
        return self.total - self.deposit

    @property
    def earned(self) -> Decimal:
        """What is left of the price before tax when the cost is paid."""
        return self.net - self.cost


def price_at(cost: Decimal, margin: Decimal, pricing: Pricing) -> Price:
    """The price of something that costs so much, at a margin of the price before tax.

    Raises PricingError for a margin of 1 or more, or below 0.
    Source: price = cost / (1 - margin), as the margin is a share of the price and not of the cost; common practice.
    """
    if not 0 <= margin < 1:
        raise PricingError(f"a margin of {margin:.0%} cannot be: it is a share of the price, from 0 % to under 100 %")
    net = stepped(cost / (ONE - margin), pricing.price_step)
    tax = pricing.coins(net * pricing.tax)
    return Price(cost, margin, net, tax, pricing.coins((net + tax) * pricing.deposit))


def own_margin(job: Job, shop: Shop) -> Decimal:
    """The job's own margin, else the shop's."""
    return shop.prices.pricing.margin if job.price.margin is None else job.price.margin


def stepped(amount: Decimal, step: Decimal) -> Decimal:
    """An amount rounded up to a multiple of a step.

    >>> stepped(Decimal("1201.01"), Decimal(5)), stepped(Decimal(1200), Decimal(5))
    (Decimal('1205'), Decimal('1200'))
    """
    return (amount / step).quantize(ONE, ROUND_CEILING) * step
