"""How long the shop takes for each kind of step, against the table, and the hours that this is from."""

from __future__ import annotations

import asyncio
from datetime import date
from typing import Any

from starlette.responses import Response

from fitwright.assess import Assessment
from fitwright.errors import FitwrightError
from fitwright.making.plan import Rate, usual_rates
from fitwright.making.plan.remembering import hours_of, readings_of
from fitwright.making.ways import own_rates
from fitwright.shop.learning import learn
from fitwright.shop.records import Hours, Measured
from fitwright.shop.records.remembered import remember
from fitwright.truing.naming import Names
from fitwright.web.aside import Tell
from fitwright.web.pages.shop.kept import all_of, equipped, place_of, shown, with_records
from fitwright.web.trouble import reasons
from fitwright.web.visit import Visit

LATEST = 60


async def hours(
    visit: Visit, said: list[str] | None = None, status: int = 200, done: list[str] | None = None
) -> Response:
    """The page."""
    return await shown(visit, "shop/hours.html", said or [], status, lambda: {**_hours(visit), "done": done or []})


async def keep(visit: Visit) -> Response:
    """Keep what a job has left: its hours and readings, in the place of those kept of it before."""
    desk = visit.workbench.desk
    work = desk.work(visit.folder.job(visit.field("job")))
    try:
        left = await asyncio.shield(desk.aside(work, left_by).result)
        changed = await with_records(visit, lambda records: remember(records, work.right.job.name, *left))
    except FitwrightError as wrong:
        return await hours(visit, reasons(wrong), 422)
    told = f"{work.right.job.name}: {len(left[0])} times and {len(left[1])} readings are kept, {changed} of them new."
    return await hours(visit, done=[told])


def left_by(assessment: Assessment, tell: Tell) -> tuple[list[Hours], list[Measured]]:
    """What a job leaves to the records, against what its steps usually take and ask for."""
    tell("steps", 0.2)
    job, steps, today = assessment.job, assessment.usual_steps, date.today()
    names = Names(assessment.piece, assessment.set_ups)
    return list(hours_of(job, steps, today)), list(readings_of(job, steps, today, names.in_full))


def _hours(visit: Visit) -> dict[str, Any]:
    shop = equipped(visit).shop
    kept = all_of(place_of(visit), Hours)
    learnt = learn(shop, hours=kept)
    rates = {**usual_rates(), **own_rates(shop.working)}
    rows = []
    for kind, rate in rates.items():
        found = learnt.hours_of(kind) if kind in learnt.hours else None
        rows.append({
            "kind": kind, "rate": _told(rate.start, rate.setting, rate.each, rate.per), "task": rate.task,
            "money": shop.rate_for(rate.task), "count": found.count if found else 0,
            "factor": f"{found.factor:.2f}" if found else "", "now": _now(rate, found.factor) if found else "",
            "range": f"{found.low:.2f} to {found.high:.2f}" if found else "",
        })  # fmt: skip
    latest = sorted(kept, key=lambda one: (one.day, one.id), reverse=True)[:LATEST]
    return {"rows": rows, "latest": latest, "currency": shop.currency, "more": len(kept) - len(latest),
            "jobs": [job.key for job in visit.folder.jobs()]}  # fmt: skip


def _now(rate: Rate, times: float) -> str:
    return _told(rate.start * times, rate.setting * times, rate.each * times, rate.per)


def _told(start: float, setting: float, each: float, per: str) -> str:
    """A rate in words.

    >>> _told(5, 3, 1.5, "cut")
    '5 min, 3 for each setting, 1.5 for each cut'
    """
    said = [f"{start:.3g} min"]
    said += [f"{setting:.3g} for each setting"] if setting else []
    said += [f"{each:.3g} for each {per}"] if each else []
    return ", ".join(said)
