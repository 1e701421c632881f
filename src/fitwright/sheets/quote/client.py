"""The quote's page: what the client reads, with the arrangement and the piece in its place."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from datetime import date
from decimal import Decimal

from fitwright.assess import Assessment
from fitwright.pricing import Quote, price_at, quote_of
from fitwright.sheets.drawing import A4, LETTER, Drawing, Paper
from fitwright.sheets.packet.model import Head, Json, Page
from fitwright.sheets.packet.pages.place import place_page
from fitwright.sheets.packet.tables import breakable
from fitwright.sheets.quote.strip import Strip

WIDE = 180.0
"""Width of the drawing [mm]."""
HIGHS = (96.0, 86.0, 76.0, 66.0, 56.0, 48.0)
"""Heights of the drawing to try, so that everything stays on one page [mm]."""
SIZES = (10.5, 10.5, 10.0, 9.5, 9.0, 8.5)
"""Sizes of the text to go with them [pt]."""
MOST_LINES = 14


def paper_of(assessment: Assessment) -> Paper:
    """Letter for inch jobs and A4 for metric ones."""
    return LETTER if assessment.job.style.unit == "inch" else A4


def quote_for(assessment: Assessment, made_on: date, margin: Decimal | None = None) -> Quote:
    """The quote at a margin, else the job's or the shop's own. Raises PriceMissing."""
    cost, shop = assessment.cost, assessment.shop
    price = assessment.price if margin is None else price_at(cost.total, margin, shop.prices.pricing)
    return quote_of(cost, price, assessment.job, shop, assessment.piece, made_on)


def head_of_quote(quote: Quote, paper: Paper, assessment: Assessment) -> Head:
    """What stands at the foot."""
    pricing = assessment.shop.prices.pricing
    return Head(
        title=f"Quote: {quote.piece}",
        job=f"{quote.shop}: quote for {quote.piece}",
        said=f"amounts in {quote.currency}, rounded to {pricing.smallest} ({pricing.rounding})",
        made=quote.made_on.isoformat(),
        paper="us-letter" if paper.name == "Letter" else "a4",
    )


def quote_page(quote: Quote, pictures: Mapping[str, Drawing], attempt: int) -> Page:
    """The page; attempt: how small, from 0."""
    content: Json = {
        "shop": breakable(quote.shop),
        "client": breakable(quote.client),
        "piece": breakable(quote.piece),
        "date": quote.made_on.isoformat(),
        "until": quote.valid_until.isoformat(),
        "scope": _told(quote.scope),
        "excluded": _told(quote.excluded),
        "care": _told(quote.care),
        "terms": _told(quote.terms),
        "currency": quote.currency,
        "sums": sums_told(quote),
        "caption": "in its place, from the front" if "place" in pictures else "",
        "size": SIZES[attempt],
        "high": HIGHS[attempt],
    }
    return Page("quote", "Quote", content, pictures)


def sums_told(quote: Quote) -> list[Json]:
    """The lines, the price, the tax, the total and the deposit, as they are read."""
    price, (tax, rate) = quote.price, quote.tax
    rows: list[Json] = [{"what": what, "amount": money(amount)} for what, amount in quote.lines]
    rows.append({"what": "Price", "amount": money(price.net), "heavy": True})
    if price.tax:
        rows.append({"what": f"{tax.capitalize()}, {share(rate)}", "amount": money(price.tax)})
        rows.append({"what": "To pay", "amount": money(price.total), "heavy": True})
    if price.deposit:
        rows.append({"what": "Deposit, before work begins", "amount": money(price.deposit)})
        rows.append({"what": "Due on delivery", "amount": money(price.balance)})
    return rows


def money(amount: Decimal) -> str:
    """An amount with its thousands apart, by a space at which no line breaks.

    >>> money(Decimal("12345.5")), money(Decimal("-3"))
    ('12\\xa0345.50', '−3.00')
    """
    return f"{amount:,.2f}".replace(",", "\u00a0").replace("-", "−")


def share(rate: Decimal) -> str:
    """A fraction as a percentage.

    >>> share(Decimal("0.065")), share(Decimal("0.2"))
    ('6.5 %', '20 %')
    """
    return f"{(100 * rate).normalize():f} %"


def _told(lines: tuple[str, ...]) -> list[str]:
    return [breakable(line) for line in lines[:MOST_LINES]]


def _unmarked(picture: Drawing) -> Drawing:
    """Without the marks, which are explained on the shop's sheet alone."""
    return replace(picture, views=tuple(replace(view, marks=()) for view in picture.views))


def quote_drawings(assessment: Assessment, paper: Paper) -> Callable[[float], dict[str, Drawing]]:
    """Of a height [mm], the views in a row, and the piece in its place from the front where that was surveyed."""
    strip = Strip(assessment.meshes, assessment.job.style, paper.projection)
    placed = place_page(assessment, strip.whole(paper))
    beside = {} if placed is None or not placed.pictures else {"place": _unmarked(next(iter(placed.pictures.values())))}
    return lambda high: {"arrangement": strip.row(WIDE, high, paper), **beside}
