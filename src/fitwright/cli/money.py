"""What the verbs about money have in common: the margin that is asked for."""

from __future__ import annotations

from decimal import Decimal, InvalidOperation
from typing import TYPE_CHECKING

import click

if TYPE_CHECKING:
    from fitwright.assess import Assessment
    from fitwright.pricing import Price

margin_option = click.option(
    "--margin", help="Your share of the price before tax, such as 25 %; else the job's own, else the shop's."
)


def margin_of(said: str | None) -> Decimal | None:
    """A margin as a fraction. Raises PricingError for what is none."""
    from fitwright.pricing import PricingError

    if said is None:
        return None
    try:
        number = Decimal(said.strip().removesuffix("%").strip())
    except InvalidOperation:
        number = Decimal("NaN")
    if not number.is_finite() or not said.strip().endswith("%"):
        raise PricingError(f"{said!r} is not a margin: write it with its sign, as 25 %")
    return number / 100


def priced_at(assessment: Assessment, margin: Decimal | None) -> Price:
    """The price at a margin, else the assessment's own."""
    from fitwright.pricing import price_at

    if margin is None:
        return assessment.price
    return price_at(assessment.cost.total, margin, assessment.shop.prices.pricing)
