"""What the page of bench sheets, templates, timber and finish answers."""

from __future__ import annotations

import asyncio
from typing import Any

from starlette.responses import Response

from fitwright.errors import FitwrightError
from fitwright.web.desk import Work
from fitwright.web.errors import NotThere
from fitwright.web.guard.headers import PICTURE_POLICY
from fitwright.web.leaves import Leaf
from fitwright.web.pages.making.trades import TRADES
from fitwright.web.trouble import reasons
from fitwright.web.under_way import under_way
from fitwright.web.visit import Visit

FIRST = next(iter(TRADES))


async def making(visit: Visit) -> Response:
    """The page with one trade's sheets, which follow, or come with it for a browser without scripts."""
    work, trade = visit.work(), visit.request.query_params.get("trade", FIRST)
    _known(trade)
    whole = "whole" in visit.request.query_params
    values = await _set(visit, work, trade) if whole else {"leaves": None, "reasons": []}
    return visit.html("making/making.html", **_values(work, trade), **values)


async def papers(visit: Visit) -> Response:
    """The sheets of a trade when they are set, till then how far they are."""
    work, trade = visit.work(), _known(visit.part("trade"))
    if work.assessment is not None:
        waiting = await under_way(visit, work, TRADES[trade].task)
        if waiting is not None:
            return waiting
    return visit.html("making/papers.html", **_values(work, trade), **await _set(visit, work, trade))


async def sheet(visit: Visit) -> Response:
    """One sheet as a picture, as large as its paper."""
    work, trade, number = visit.work(), _known(visit.part("trade")), int(visit.part("number"))
    tag = f'"{work.revision}-{trade}-{number}"'
    headers = {"etag": tag, "cache-control": "no-cache", "content-security-policy": PICTURE_POLICY}
    if visit.request.headers.get("if-none-match") == tag:
        return Response(status_code=304, headers=headers)
    found = await _leaves(visit, work, trade)
    if not 1 <= number <= len(found):
        raise NotThere(f"there is no sheet {number}: {TRADES[trade].word.lower()} has {len(found)}")
    return Response(found[number - 1].svg, media_type="image/svg+xml", headers=headers)


def _known(trade: str) -> str:
    if trade not in TRADES:
        raise NotThere(f"there are no sheets of {trade[:30]!r}: {', '.join(TRADES)}")
    return trade


def _values(work: Work, trade: str) -> dict[str, Any]:
    paper = "letter" if work.assessment is None or work.assessment.job.style.unit == "inch" else "a4"
    return {"work": work, "job": work.key, "trade": trade, "trades": TRADES, "paper": paper}


async def _leaves(visit: Visit, work: Work, trade: str) -> tuple[Leaf, ...]:
    found: tuple[Leaf, ...] = await asyncio.shield(visit.workbench.desk.aside(work, TRADES[trade].task).result)
    return found


async def _set(visit: Visit, work: Work, trade: str) -> dict[str, Any]:
    try:
        return {"leaves": await _leaves(visit, work, trade), "reasons": []}
    except FitwrightError as wrong:
        return {"leaves": (), "reasons": reasons(wrong)}
