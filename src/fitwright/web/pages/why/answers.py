"""What the pages of reasons answer."""

from __future__ import annotations

import asyncio
from urllib.parse import quote, unquote

from starlette.responses import Response

from fitwright.pricing import Cost
from fitwright.web.longer import longer_findings
from fitwright.web.pages.quote.tasks import ShopCosts, shop_costs_of
from fitwright.web.pages.why.dims import reason_of_dim
from fitwright.web.pages.why.findings import reason_of_finding
from fitwright.web.pages.why.moved import move_row
from fitwright.web.pages.why.moving import key_of, moves_of
from fitwright.web.pages.why.parts import reason_of_part
from fitwright.web.pages.why.prices import reason_of_kind, reason_of_step
from fitwright.web.pages.why.reason import Reason
from fitwright.web.under_way import part_of_page, under_way
from fitwright.web.visit import Visit
from fitwright.web.words import finding_key

SHOWN = 12


async def of_dim(visit: Visit) -> Response:
    """A dim."""
    work = visit.work()
    return _told(visit, reason_of_dim(work.right.job, work.state.text, visit.part("name")))


async def of_part(visit: Visit) -> Response:
    """A part."""
    work, mark = visit.work(), visit.part("mark")
    reason = await visit.workbench.desk.result(
        work, f"why {mark[:40]}", lambda found: reason_of_part(found, work.state.text, mark)
    )
    return _told(visit, reason)


async def of_finding(visit: Visit) -> Response:
    """A finding."""
    work = visit.work()
    findings = work.found(longer_findings) or await visit.workbench.desk.findings(work)
    key = visit.part("key")
    moves = f"{visit.to}/why/moves/{quote(unquote(key), safe='')}"
    return _told(visit, reason_of_finding(work.right, findings, work.state.text, key), moves)


async def of_cost(visit: Visit) -> Response:
    """A kind of cost."""
    return _told(visit, reason_of_kind(await _cost(visit), visit.part("kind")))


async def of_step_cost(visit: Visit) -> Response:
    """What a step costs."""
    return _told(visit, reason_of_step(await _cost(visit), int(visit.part("number"))))


async def _cost(visit: Visit) -> Cost:
    found: ShopCosts = await asyncio.shield(visit.workbench.desk.aside(visit.work(), shop_costs_of).result)
    return found.cost


async def moves_finding(visit: Visit) -> Response:
    """The inputs of the job file that move a finding, the strongest first; till then how far the trying is."""
    work, task = visit.work(), moves_of(visit.work().state.text)
    waiting = await under_way(visit, work, task)
    if waiting is not None:
        return waiting
    wanted = unquote(visit.part("key"))
    finding = next((one for one in work.right.findings if unquote(finding_key(one)) == wanted), None)
    moves = [] if finding is None else (work.found(task) or {}).get(key_of(finding), [])
    rows = [] if finding is None else [move_row(move, finding, work.right.job) for move in moves[:SHOWN]]
    return part_of_page(visit, "why/moves.html", job=work.key, rows=rows, more=len(moves) - SHOWN)


def _told(visit: Visit, reason: Reason, moves: str = "") -> Response:
    return visit.html("why/why.html", job=visit.part("job"), reason=reason, moves=moves)
