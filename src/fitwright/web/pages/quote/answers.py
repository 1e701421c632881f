"""What the pages about the price answer."""

from __future__ import annotations

import asyncio
from datetime import date
from decimal import Decimal, InvalidOperation

from starlette.responses import Response

from fitwright.job import JobFile
from fitwright.sheets.wording import percent
from fitwright.shop import Shop
from fitwright.shop.records import Quoted, open_records, where
from fitwright.web.errors import NotTaken, NotThere
from fitwright.web.guard.headers import PICTURE_POLICY
from fitwright.web.pages.quote.tasks import ClientQuote, client_quote, money, shop_costs_of
from fitwright.web.under_way import found_later
from fitwright.web.visit import Visit, telling

MOST_MARGIN = 95


async def quote(visit: Visit) -> Response:
    """The page; the paper follows."""
    work = visit.work()
    return visit.html("quote/quote.html", job=work.key, work=work)


async def client(visit: Visit) -> Response:
    """The paper as it prints, with what to do with it."""
    kept = visit.work().assessment is not None and where(of_shop=visit.work().right.shop.records).there
    return await found_later(visit, client_quote, "quote/client.html", money=money, records=kept)


async def quote_page(visit: Visit) -> Response:
    """One page of the paper as a picture."""
    found, number = await _quote(visit), int(visit.part("number"))
    if not 1 <= number <= len(found.pages):
        raise NotThere(f"there is no page {number} of this quote: it has {len(found.pages)}")
    headers = {"cache-control": "no-cache", "content-security-policy": PICTURE_POLICY}
    return Response(found.pages[number - 1], media_type="image/svg+xml", headers=headers)


async def pdf(visit: Visit) -> Response:
    """The paper to print or send."""
    found = await _quote(visit)
    if not found.pdf:
        raise NotThere("this quote lacks prices: the page of the quote names them")
    return _as_pdf(found.pdf, f"{visit.part('job')} quote.pdf")


async def shop(visit: Visit) -> Response:
    """The shop's own page; the numbers follow."""
    work = visit.work()
    own = None if work.assessment is None else work.assessment.job.price.margin
    return visit.html("quote/shop.html", job=work.key, work=work, own=own)


async def shop_costs(visit: Visit) -> Response:
    """Cost by kind and step, and the price at other margins."""
    return await found_later(visit, shop_costs_of, "quote/costs.html", money=money, percent=percent)


async def shop_pdf(visit: Visit) -> Response:
    """The shop's own sheet."""
    found = await visit.workbench.desk.aside(visit.work(), shop_costs_of).result
    return _as_pdf(found.pdf, f"{visit.part('job')} cost.pdf")


async def margin(visit: Visit) -> Response:
    """Set the job's own margin."""
    said = _margin(visit.field("margin"))

    def edit(file: JobFile) -> None:
        file.set("price.margin", said)

    now = await visit.change(edit)
    if visit.piecewise:
        return telling(visit.html("quote/said.html", said=f"The margin is now {said}."), now.revision)
    return visit.on_to(f"{visit.to}/quote/shop")


async def record(visit: Visit) -> Response:
    """Keep the quote in the shop's records, as sent today."""
    work, found = visit.work(), await _quote(visit)
    if visit.field("revision") != work.revision:
        raise NotTaken("the job has changed meanwhile: look at the quote again, then keep it")
    if found.missing:
        raise NotTaken("this quote lacks prices: the page of the quote names them")
    await asyncio.to_thread(_record, work.right.shop, work.right.job.name, found)
    said = f"Kept as sent on {date.today().isoformat()}: {money(found.price.total)} {found.currency} with tax."
    if visit.piecewise:
        return visit.html("quote/said.html", said=said)
    return visit.on_to(f"{visit.to}/quote")


def _record(own: Shop, job: str, found: ClientQuote) -> None:
    kept = Quoted(date.today(), job, found.price.total, found.currency, "sent", found.cost)
    with open_records(where(of_shop=own.records)) as records:
        records.add(kept)


async def _quote(visit: Visit) -> ClientQuote:
    found: ClientQuote = await asyncio.shield(visit.workbench.desk.aside(visit.work(), client_quote).result)
    return found


def _margin(said: str) -> str:
    """A margin as it stands in the job file. Raises NotTaken."""
    text = said.strip().removesuffix("%").strip()
    try:
        number = Decimal(text) if len(text) <= 8 else Decimal("NaN")
    except InvalidOperation:
        number = Decimal("NaN")
    if not number.is_finite() or not 0 <= number <= MOST_MARGIN:
        raise NotTaken(f"{said[:30]!r} is not a margin: a share of the price from 0 % to {MOST_MARGIN} %, as 25 %")
    return f"{number.normalize():f} %"


def _as_pdf(content: bytes, name: str) -> Response:
    safe = "".join(letter if letter.isascii() and (letter.isalnum() or letter in " .-") else "-" for letter in name)
    headers = {"content-disposition": f'inline; filename="{safe}"', "cache-control": "no-cache"}
    return Response(content, media_type="application/pdf", headers=headers)
