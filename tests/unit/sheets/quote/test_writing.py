"""The papers about money, read back."""

from __future__ import annotations

import io
from dataclasses import replace
from datetime import date
from decimal import Decimal
from pathlib import Path

import pytest
from pypdf import PdfReader

from fitwright.assess import assess
from fitwright.pricing import PriceMissing
from fitwright.pricing.exploring import Point, Tried
from fitwright.sheets.quote import cost_pdf, quote_pdf, quote_pictures, write_cost_sheet, write_quote
from fitwright.sheets.quote.client import money as told_money
from tests.demos import NAMES, assessed
from tests.stand import SHOP, figures, missing, stand, with_prices

DAY = date(2027, 1, 31)


def money(amount: Decimal) -> str:
    """As it is read off the paper."""
    return told_money(amount).replace("\u00a0", " ")


def texts(pdf: bytes) -> list[str]:
    return [" ".join(page.extract_text().split()) for page in PdfReader(io.BytesIO(pdf)).pages]


@pytest.mark.parametrize("name", NAMES)
def test_a_quote_is_one_page_and_says_what_it_has_to(name: str) -> None:
    found = assessed(name)
    (page,) = texts(quote_pdf(found, DAY))
    assert found.job.client in page
    assert money(found.price.total) in page
    assert money(found.price.deposit) in page
    assert "2027-03-02" in page
    for word in ("What you get", "Not part of it", "Looking after it", "Terms", "Agreed"):
        assert word in page


def test_what_it_costs_the_shop_is_not_on_it() -> None:
    found = assessed("coat-rail")
    page = texts(quote_pdf(found, DAY))[0]
    for word in (money(found.cost.total), "overhead", "margin", "rework"):
        assert word not in page


def test_the_same_day_gives_the_same_bytes() -> None:
    assert quote_pdf(stand(), DAY) == quote_pdf(stand(), DAY)


def test_a_talkative_shop_still_has_one_page() -> None:
    terms = replace(
        SHOP.prices.terms, lines=tuple(f"Term {n}: " + "said at some length " * 4 for n in range(9)),
        excluded=tuple(f"not the work of trade number {n}" for n in range(9)),
    )  # fmt: skip
    found = assess(stand().job, with_prices(SHOP, terms=terms))
    pages = texts(quote_pdf(found, DAY))
    assert len(pages) == 1
    assert "Term 8" in pages[0]


def test_no_quote_without_all_prices() -> None:
    poor = assess(stand().job, with_prices(SHOP, paint=missing(SHOP.prices.paint, "enamel")))
    with pytest.raises(PriceMissing):
        quote_pdf(poor, DAY)
    assert "not known" in " ".join(texts(cost_pdf(poor, DAY)))


def test_pictures_are_of_the_same_paper() -> None:
    quote, pages, pdf = quote_pictures(stand(), DAY, Decimal("0.4"))
    assert len(pages) == 1
    assert pages[0].lstrip().startswith(b"<svg")
    assert money(quote.price.net) in texts(pdf)[0]


def test_the_cost_sheet_says_all_of_it() -> None:
    found = assessed("coat-rail")
    tried = [Tried(Point(0, "as it is", ()), figures()), Tried(Point(1, "heavier", ()), figures(net=1100)),
             Tried(Point(2, "bent to a knot", ()), None, "it cannot be bent")]  # fmt: skip
    told = " ".join(texts(cost_pdf(found, DAY, tried=tried)))
    assert "for the shop only" in told
    assert money(found.cost.total) in told
    for margin in ("12 %", "20 %, this price", "28 %"):
        assert margin in told
    for step in found.steps:
        assert f"{step.number} {step.title.split(':')[0]}" in told
    assert "+100.00" in told
    assert "it cannot be bent" in told


def test_files(tmp_path: Path) -> None:
    assert write_quote(stand(), tmp_path / "for" / "client.pdf", DAY).read_bytes().startswith(b"%PDF")
    assert write_cost_sheet(stand(), tmp_path / "own.pdf", DAY).read_bytes().startswith(b"%PDF")
