"""Bars and offcuts on hand: put on, taken off, changed; and what a job that was built did to them."""

from __future__ import annotations

import asyncio
from dataclasses import replace
from datetime import date
from decimal import Decimal, InvalidOperation
from typing import Any

from starlette.responses import Response

from fitwright.assess import Assessment
from fitwright.errors import FitwrightError
from fitwright.shop.records import CannotKeep, OnHand, open_records
from fitwright.shop.records.lists import label_of
from fitwright.shop.records.rack import ON_HAND, BarUsed, UsedUp, use_up
from fitwright.units import Style, parse_length
from fitwright.web.aside import Tell
from fitwright.web.pages.shop.kept import all_of, changed, equipped, filled, place_of, shown, style_of, typed_in, whole
from fitwright.web.trouble import reasons
from fitwright.web.visit import Visit

STOCK = "/shop/stock"
NEW = {"label": "", "length": "", "count": "1", "place": "", "heat": "", "price": "0", "note": "", "whole": ""}


async def stock(
    visit: Visit, said: list[str] | None = None, status: int = 200, done: list[str] | None = None
) -> Response:
    """The page."""
    return await shown(visit, "shop/stock.html", said or [], status, lambda: {**_stock(visit), "done": done or []})


def _stock(visit: Visit) -> dict[str, Any]:
    shop, style = equipped(visit).shop, style_of(visit)
    held = sorted(all_of(place_of(visit), OnHand), key=lambda one: (one.label, one.length))
    listed = [bar for bar in shop.stock_lengths if bar.on_hand is not None and bar.basis != ON_HAND]
    labels = sorted({bar.label for bar in shop.stock_lengths})
    return {
        "typed": NEW | typed_in(visit, "/shop/stock/put"),
        "held": [(one, style.length(one.length, feet=one.length > 3000)) for one in held],
        "listed": [(bar, style.length(bar.length)) for bar in listed],
        "labels": labels, "currency": shop.currency, "jobs": [job.key for job in visit.folder.jobs()],
    }  # fmt: skip


async def put(visit: Visit) -> Response:
    """Put stock on the rack."""
    return await _written(visit, lambda records: records.add(_read(visit, OnHand("", 0.0))))


async def change(visit: Visit) -> Response:
    """Change an entry, if nobody else has."""
    return await _written(visit, lambda records: records.replace(_read(visit, _known(visit, records))))


async def take(visit: Visit) -> Response:
    """Take one off."""

    def one_less(records: Any) -> None:
        held = _known(visit, records)
        if held.count < 1:
            raise CannotKeep(f"there is none left of {held.label}")
        records.replace(replace(held, count=held.count - 1))

    return await _written(visit, one_less)


async def remove(visit: Visit) -> Response:
    """Cross an entry out."""
    return await _written(visit, lambda records: records.remove(_known(visit, records)))


async def built(visit: Visit) -> Response:
    """Take the bars of a job off the rack, and put its offcuts on it."""
    job = visit.folder.job(visit.field("job"))
    again, bought = (filled(visit, name) == "yes" for name in ("again", "bought"))
    desk = visit.workbench.desk
    work = desk.work(job)
    try:
        bars = await asyncio.shield(desk.aside(work, bars_of).result)
        name, pricing = work.right.job.name, work.right.shop.prices.pricing
        done = await asyncio.to_thread(_use_up, visit, name, bars, again, bought, pricing.usable)
    except FitwrightError as wrong:
        return await stock(visit, reasons(wrong), 422)
    return await stock(visit, done=told(done, name, work.right.job.style))


def bars_of(assessment: Assessment, tell: Tell) -> tuple[BarUsed, ...]:
    """The bars that a job takes; the blocks for the bench are cut from what is left."""
    tell("cutting plan", 0.2)
    return assessment.bars_used


def told(done: UsedUp, job: str, style: Style) -> list[str]:
    """What building a job did to the rack, in words."""
    said = [f"{job}: off the rack {bar.label}, {style.length(bar.length)}" for bar in done.taken]
    said += [f"On the rack: {one.count} × {one.label}, {style.length(one.length)}" for one in done.put]
    said += [f"Kept as bought: {one.count} × {one.what}, {one.price} each" for one in done.bought]
    said += [f"Cross out in the shop file: {bar.label}, {style.length(bar.length)}" for bar in done.not_recorded]
    return said or [f"{job} takes nothing off the rack and leaves nothing that is long enough to keep."]


def _use_up(visit: Visit, job: str, bars: tuple[BarUsed, ...], again: bool, bought: bool, least: float) -> UsedUp:
    with open_records(place_of(visit)) as records:
        return use_up(records, job, bars, date.today(), again=again, bought=bought, least=least)


async def _written(visit: Visit, work: Any) -> Response:
    return await changed(visit, work, STOCK, stock)


def _known(visit: Visit, records: Any) -> OnHand:
    """The entry in the address, in the version that the form was made of. Raises NotThere, NotTaken."""
    held: OnHand = records.one(OnHand, int(visit.part("number")))
    return replace(held, version=whole(visit, "version"))


def _read(visit: Visit, held: OnHand) -> OnHand:
    """An entry as the form has it. Raises CannotKeep with everything that is wrong."""
    unit = equipped(visit).shop.unit
    wrong: list[str] = []

    def read(name: str, how: Any, otherwise: Any) -> Any:
        text = filled(visit, name)
        try:
            return how(text) if text else otherwise
        except (FitwrightError, ValueError, InvalidOperation) as error:
            reason = str(error) if isinstance(error, FitwrightError) else "a number is wanted"
            wrong.append(f"{name} is {text[:40]!r}: {reason}")
            return otherwise

    found = replace(
        held,
        label=read("label", lambda text: label_of(text, unit), held.label),
        length=read("length", lambda text: parse_length(text, unit), held.length),
        count=read("count", lambda text: int(text[:9]), held.count),
        price=read("price", Decimal, Decimal(0)),
        offcut=filled(visit, "whole") != "yes",
        place=filled(visit, "place"), heat=filled(visit, "heat"), note=filled(visit, "note"),
    )  # fmt: skip
    if wrong:
        raise CannotKeep("\n".join(wrong))
    return found
