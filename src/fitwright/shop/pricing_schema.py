"""What the sections of a shop file about money may hold."""

from __future__ import annotations

from decimal import Decimal, InvalidOperation
from typing import Annotated, Any, Literal

from pydantic import BeforeValidator, Field
from pydantic_core import PydanticCustomError

from fitwright.shop.entry import Entry, Money, Name, Size
from fitwright.shop.pricing import KM_PER, ROUNDINGS, UNITS_SOLD

MOST_WORDS = 400


def _percent(value: Any) -> Any:
    """A fraction from a percentage; a bare number could be meant either way."""
    if isinstance(value, Decimal):
        return value
    text = str(value).strip()
    try:
        number = Decimal(text.removesuffix("%").strip())
    except InvalidOperation:
        number = Decimal("NaN")
    if not text.endswith("%") or not number.is_finite():
        raise PydanticCustomError("percent", "{said} is not a percentage: write it as 20 %", {"said": repr(value)})
    return number / 100


def _money_or_map(value: Any) -> Any:
    return value if isinstance(value, dict) else {"price": value}


Percent = Annotated[Decimal, BeforeValidator(_percent), Field(ge=0, le=5)]
Share = Annotated[Decimal, BeforeValidator(_percent), Field(ge=0, le=1)]
Margin = Annotated[Decimal, BeforeValidator(_percent), Field(ge=0, lt=1)]
Coin = Annotated[Decimal, Field(gt=0, le=10_000, allow_inf_nan=False)]
Words = Annotated[str, Field(min_length=1, max_length=MOST_WORDS)]


class TaxEntry(Entry):
    """What is added to the price for the state; a rate of 0 % for a shop that adds none."""

    name: Name
    rate: Percent


class PricingEntry(Entry):
    """From cost to price."""

    margin: Margin
    margins: Annotated[list[Margin], Field(min_length=3, max_length=3)]
    overhead: Percent
    tax: TaxEntry
    deposit: Share
    smallest: Coin = Decimal("0.01")
    rounding: Literal[tuple(ROUNDINGS)] = "half even"  # type: ignore[valid-type]
    price_step: Coin = Decimal(1)
    usable_offcut: Size
    offcut_value: Share
    step_spread: Share
    job_spread: Share


class UnitPriceEntry(Entry):
    """Money for one unit."""

    price: Money
    per: Literal[UNITS_SOLD] = "piece"  # type: ignore[valid-type]
    least: Money = Decimal(0)


class DeliveryEntry(Entry):
    """Bringing the piece."""

    each: Money
    per_distance: Money
    unit: Literal[tuple(KM_PER)]  # type: ignore[valid-type]
    usual: Annotated[Decimal, Field(ge=0, le=20_000)]


class TermsEntry(Entry):
    """What stands under a quote."""

    valid_days: Annotated[int, Field(ge=1, le=3650)] = 30
    lines: list[Words] = Field(default_factory=list)
    excluded: list[Words] = Field(default_factory=list)
    care: dict[Name, Words] = Field(default_factory=dict)


Priced = Annotated[UnitPriceEntry, BeforeValidator(_money_or_map)]
Prices = dict[Name, Priced]
TinPrices = dict[Name, dict[Name, Money]]
MoneyByName = dict[Name, Money]
