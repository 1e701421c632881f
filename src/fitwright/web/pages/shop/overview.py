"""The shop in short: its profile, and how much its records hold."""

from __future__ import annotations

import asyncio
from typing import Any

from starlette.responses import Response

from fitwright.shop import Shop
from fitwright.shop.read import shipped_profile
from fitwright.shop.records import open_records
from fitwright.units import Style
from fitwright.web.pages.shop.kept import equipped, place_of, shown, style_of
from fitwright.web.visit import Visit

NONE_YET = dict.fromkeys(("trials", "readings", "stock", "prices", "hours", "purchases", "quotes", "built"), 0)


async def shop(visit: Visit) -> Response:
    """The page."""
    return await shown(visit, "shop/shop.html", [], 200, lambda: _shop(visit))


def _shop(visit: Visit) -> dict[str, Any]:
    place, profile = place_of(visit), equipped(visit).shop
    totals = NONE_YET
    if place.there:
        with open_records(place) as records:
            totals = records.totals()
    file = visit.workbench.desk.shop_file
    told = facts(profile, style_of(visit))
    return {"shop": profile, "totals": totals, "place": str(place), "facts": told, "file": str(file) if file else ""}


async def copy(visit: Visit) -> Response:
    """The shop file that comes with the program, to make one's own of."""
    text = await asyncio.to_thread(lambda: shipped_profile(equipped(visit).shop.unit))
    headers = {"content-disposition": 'attachment; filename="shop.yaml"', "cache-control": "no-cache"}
    return Response(text, media_type="text/yaml", headers=headers)


def facts(shop: Shop, style: Style) -> list[tuple[str, str]]:
    """The profile in rows: what, and what there is of it."""
    bench = shop.bench
    holes = f", holes {style.length(bench.hole_diameter)} every {style.length(bench.hole_pitch)}"
    size = f"{style.length(bench.length)} × {style.length(bench.width)}"
    wire = _thousandths(shop.welding.wire) if style.unit == "inch" else style.length(shop.welding.wire)
    rolls = [die for die in shop.dies if die.rolls]
    return [
        ("Saws", ", ".join(f"{saw.name} (kerf {style.fine().length(saw.kerf)})" for saw in shop.saws)),
        ("Benders", ", ".join(bender.name for bender in shop.benders) or "none"),
        ("Dies", f"{len(shop.dies) - len(rolls)} dies, {len(rolls)} sets of rolls"),
        ("Bench", f"{bench.name}, {size}{holes if bench.hole_pitch else ''}"),
        ("Welding", f"{shop.welding.process}, wire {wire}"),
        ("Stock listed", f"{len({bar.label for bar in shop.stock_lengths})} kinds"),
        ("Rates an hour", ", ".join(f"{task} {rate} {shop.currency}" for task, rate in shop.rates.items())),
        ("Work", f"{shop.working.people} at work, {shop.working.hours:g} hours a day"),
    ]  # fmt: skip


def _thousandths(mm: float) -> str:
    """A wire as inch shops name it.

    >>> _thousandths(0.762)
    '0.030"'
    """
    return f'{mm / 25.4:.3f}"'
