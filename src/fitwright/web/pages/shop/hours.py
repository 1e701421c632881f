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
from fitwright.units import Unit
from fitwright.web.aside import Tell
from fitwright.web.pages.shop.kept import all_of, equipped, place_of, shown, with_records
from fitwright.web.trouble import reasons
from fitwright.web.visit import Visit

LATEST = 60
BY_FOOT = {"100 mm": ("foot", 3.048), "square metre": ("square foot", 0.09290304)}
"""What the table counts by, as an inch shop measures it: its name, and how much of the table's it is (exact)."""


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
            "kind": kind, "rate": told_rate(rate, shop.unit), "task": rate.task,
            "money": shop.rate_for(rate.task), "count": found.count if found else 0,
            "factor": f"{found.factor:.2f}" if found else "",
            "now": told_rate(rate, shop.unit, found.factor) if found else "",
            "range": f"{found.low:.2f} to {found.high:.2f}" if found else "",
        })  # fmt: skip
    latest = sorted(kept, key=lambda one: (one.day, one.id), reverse=True)[:LATEST]
    return {"rows": rows, "latest": latest, "currency": shop.currency, "more": len(kept) - len(latest),
            "jobs": [job.key for job in visit.folder.jobs()]}  # fmt: skip


def told_rate(rate: Rate, unit: Unit, times: float = 1.0) -> str:
    """A rate in words and in the shop's measures, so many times as long.

    >>> told_rate(Rate(5, 1.5, "cut", setting=3), "mm")
    '5 min, 3 for each setting, 1.5 for each cut'
    >>> told_rate(usual_rates()["grind"], "inch")
    '10 min, 6.1 for each foot ground flush, 2 for each weld to brush'
    """
    said = [f"{rate.start * times:.3g} min"]
    said += [f"{rate.setting * times:.3g} for each setting"] if rate.setting else []
    said += [f"{each:.3g} for each {per}" for each, per in _each(rate, unit, times)] if rate.each else []
    return ", ".join(said)


def _each(rate: Rate, unit: Unit, times: float) -> list[tuple[float, str]]:
    """Minutes for one of each thing that the rate counts, by the foot where the shop works in inches."""
    if unit != "inch" or not any(metric in rate.per for metric in BY_FOOT):
        return [(rate.each * times, rate.per)]
    each = []
    for per in rate.per.split(", or "):
        metric, (foot, size) = next(((m, row) for m, row in BY_FOOT.items() if m in per), ("", ("", 1.0)))
        each.append((rate.each * times * size, per.replace(metric, foot) if metric else per))
    return each
