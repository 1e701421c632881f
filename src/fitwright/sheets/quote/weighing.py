"""Ways of making it against one another, as rows of a table."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal

from fitwright.findings import Verdict
from fitwright.pricing.exploring.front import best_few
from fitwright.pricing.exploring.trying import Figures, Tried
from fitwright.sheets.quote.client import money
from fitwright.sheets.terminal import SIGNS
from fitwright.units import Style


def tried_rows(tried: Sequence[Tried], style: Style) -> list[tuple[object, ...]]:
    """Each way with price, what it is more than the first, weight, what it moves of what is allowed, worst finding."""
    base = next((row.figures.net for row in tried if row.figures is not None), None)
    best = best_few(tried)
    return [_row(row, base, best.get(row.point.number, ""), style) for row in tried]


def _row(row: Tried, base: Decimal | None, best: str, style: Style) -> tuple[object, ...]:
    figures = row.figures
    words: object = (row.point.words, best) if best else row.point.words
    if figures is None:
        return (words, "", "", "", "", f"cannot be made so: {row.wrong}")
    return (
        words,
        priced(figures.net),
        against(figures.net, base),
        style.weight(figures.mass),
        gives(figures),
        verdict_told(figures),
    )


def priced(amount: Decimal | None) -> str:
    """An amount, or that it is not known."""
    return "ask" if amount is None else money(amount)


def against(amount: Decimal | None, base: Decimal | None) -> str:
    """How much more or less than the base."""
    if amount is None or base is None:
        return ""
    return f"+{money(amount - base)}" if amount > base else money(amount - base) if amount < base else "same"


def gives(figures: Figures) -> str:
    """How much of what is allowed it sags or sways."""
    return "" if figures.give is None else f"{100 * figures.give:.0f} %"


def verdict_told(figures: Figures) -> str:
    """The worst verdict with its sign, and which finding that is."""
    told = SIGNS[Verdict(figures.verdict)]
    return f"{told}: {figures.finding}" if figures.finding else told
