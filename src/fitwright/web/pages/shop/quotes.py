"""Quotes and what became of them."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from starlette.responses import Response

from fitwright.shop.records import STATES, Quoted
from fitwright.web.pages.shop.kept import all_of, changed, place_of, shown, whole
from fitwright.web.visit import Visit


async def quotes(visit: Visit, said: list[str] | None = None, status: int = 200) -> Response:
    """The page, newest first."""
    return await shown(visit, "shop/quotes.html", said or [], status, lambda: _quotes(visit))


def _quotes(visit: Visit) -> dict[str, Any]:
    found = sorted(all_of(place_of(visit), Quoted), key=lambda one: (one.day, one.id), reverse=True)
    decided = [one for one in found if one.state in ("accepted", "paid", "declined")]
    won = sum(one.state != "declined" for one in decided)
    return {"quotes": found, "states": STATES, "won": won, "decided": len(decided)}


async def state(visit: Visit) -> Response:
    """Say what became of a quote, if nobody else has."""

    def change(records: Any) -> None:
        quote = records.one(Quoted, int(visit.part("number")))
        records.replace(replace(quote, state=visit.field("state"), version=whole(visit, "version")))

    return await changed(visit, change, "/shop/quotes", quotes)
