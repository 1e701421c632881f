"""Writing the papers about money."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from decimal import Decimal
from pathlib import Path

from fitwright.assess import Assessment
from fitwright.pricing import Quote, price_at
from fitwright.pricing.exploring.trying import Tried
from fitwright.sheets.packet.folder import made, write
from fitwright.sheets.quote.client import HIGHS, head_of_quote, paper_of, quote_drawings, quote_for, quote_page
from fitwright.sheets.quote.costing import cost_page, head_of_cost
from fitwright.sheets.quote.setting import as_pdf, as_pictures, money_sources, page_count


def quote_sources(
    assessment: Assessment, made_on: date, margin: Decimal | None = None
) -> tuple[Quote, dict[str, bytes]]:
    """The quote, and what the typesetter reads to set it: on one page, drawn smaller until it is.

    What does not go on one page at the smallest goes on to a second. Raises PriceMissing.
    """
    quote, paper = quote_for(assessment, made_on, margin), paper_of(assessment)
    drawings, head = quote_drawings(assessment, paper), head_of_quote(quote, paper, assessment)
    for attempt, high in enumerate(HIGHS):
        sources = money_sources(head, [quote_page(quote, drawings(high), attempt)])
        if page_count(sources) == 1:
            break
    return quote, sources


def quote_pdf(assessment: Assessment, made_on: date | None = None, margin: Decimal | None = None) -> bytes:
    """The client's quote as a PDF. Raises PriceMissing, and TypesettingError."""
    day = made_on or date.today()
    return as_pdf(quote_sources(assessment, day, margin)[1], day)


def quote_pictures(
    assessment: Assessment, made_on: date | None = None, margin: Decimal | None = None
) -> tuple[Quote, tuple[bytes, ...], bytes]:
    """The quote, its pages as pictures (SVG), and its PDF. Raises PriceMissing, and TypesettingError."""
    day = made_on or date.today()
    quote, sources = quote_sources(assessment, day, margin)
    return quote, as_pictures(sources), as_pdf(sources, day)


def cost_pdf(
    assessment: Assessment, made_on: date | None = None, margin: Decimal | None = None, tried: Sequence[Tried] = ()
) -> bytes:
    """The shop's own cost sheet as a PDF; tried: alternatives to be told on it."""
    day, paper = made_on or date.today(), paper_of(assessment)
    pricing = assessment.shop.prices.pricing
    price = assessment.price if margin is None else price_at(assessment.cost.total, margin, pricing)
    page = cost_page(assessment, price, tried)
    return as_pdf(money_sources(head_of_cost(assessment, paper, day), [page]), day)


def write_quote(assessment: Assessment, file: Path, made_on: date | None = None, margin: Decimal | None = None) -> Path:
    """Write the quote, whole or not at all. Raises PacketError where it cannot be written."""
    made(file.parent)
    return write(file, quote_pdf(assessment, made_on, margin))


def write_cost_sheet(
    assessment: Assessment, file: Path, made_on: date | None = None, margin: Decimal | None = None,
    tried: Sequence[Tried] = (),
) -> Path:  # fmt: skip
    """Write the cost sheet, whole or not at all. Raises PacketError where it cannot be written."""
    made(file.parent)
    return write(file, cost_pdf(assessment, made_on, margin, tried))
