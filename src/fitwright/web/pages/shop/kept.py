"""The shop and its records for the pages, and how they say what could not be done."""

from __future__ import annotations

import asyncio
from collections import Counter
from collections.abc import Awaitable, Callable
from contextlib import suppress
from functools import lru_cache
from typing import TYPE_CHECKING, Any, TypeVar

from starlette.responses import Response

from fitwright.errors import FitwrightError
from fitwright.job import parse_job
from fitwright.shop.records import ChangedMeanwhile, R, RecordsError, Where, open_records, where
from fitwright.units import Style, Unit
from fitwright.web.equipment import Equipped
from fitwright.web.errors import NotTaken
from fitwright.web.keeping import state_of
from fitwright.web.trouble import reasons
from fitwright.web.visit import Visit

if TYPE_CHECKING:
    from fitwright.shop.records.keeping import Records

T = TypeVar("T")
LARGEST = 2**31 - 1
ONE_OF_MANY = 20
"""Jobs that are looked at for their unit."""


def equipped(visit: Visit) -> Equipped:
    """The shop of all jobs with its records; without a shop file the shipped one in the unit of the jobs."""
    return visit.workbench.desk.shop(_unit(visit))


def place_of(visit: Visit) -> Where:
    """Where its records are."""
    return where(of_shop=equipped(visit).shop.records)


def style_of(visit: Visit) -> Style:
    """Lengths as the shop writes them."""
    unit = equipped(visit).shop.unit
    return Style.inch() if unit == "inch" else Style.metric()


def all_of(place: Where, kind: type[R]) -> tuple[R, ...]:
    """Every record of a kind; none, and no file made, where nothing was ever recorded."""
    if not place.there:
        return ()
    with open_records(place) as records:
        return records.all(kind)


async def with_records(visit: Visit, work: Callable[[Records], T]) -> T:
    """Do something with the records, in a thread."""
    place = place_of(visit)

    def done() -> T:
        with open_records(place) as records:
            return work(records)

    return await asyncio.to_thread(done)


async def changed(
    visit: Visit, work: Callable[[Records], object], back: str, page: Callable[..., Awaitable[Response]]
) -> Response:
    """Make a change and go back to the page; when it cannot be made the page says why, with what is true now."""
    try:
        await with_records(visit, work)
    except FitwrightError as wrong:
        return await page(visit, reasons(wrong), 409 if isinstance(wrong, ChangedMeanwhile) else 422)
    return visit.on_to(back)


def whole(visit: Visit, name: str) -> int:
    """A whole number from the form. Raises NotTaken."""
    text = visit.field(name).strip()
    if not (text.isascii() and text.isdigit() and int(text[:20]) <= LARGEST and len(text) <= 10):
        raise NotTaken(f"{name} is {text[:20]!r}: give a whole number")
    return int(text)


def filled(visit: Visit, name: str) -> str:
    """A field that may be left out."""
    return visit.field(name).strip() if name in visit.form else ""


def typed_in(visit: Visit, address: str) -> dict[str, str]:
    """What was typed into the form of an address, when that could not be taken; so that nobody types it twice."""
    return dict(visit.form) if visit.request.method == "POST" and visit.request.url.path == address else {}


def chosen(visit: Visit, name: str) -> str:
    """A part of the address after the question mark."""
    return visit.request.query_params.get(name, "")[:200]


def _unit(visit: Visit) -> Unit:
    """The unit of most jobs."""
    return _most_used(tuple(state_of(job).text for job in visit.folder.jobs()[:ONE_OF_MANY]))


@lru_cache(maxsize=4)
def _most_used(texts: tuple[str, ...]) -> Unit:
    units: Counter[Unit] = Counter()
    for text in texts:
        with suppress(FitwrightError):
            units[parse_job(text).style.unit] += 1
    return units.most_common(1)[0][0] if units else "inch"


async def shown(
    visit: Visit, template: str, said: list[str], status: int, make: Callable[[], dict[str, Any]]
) -> Response:
    """A page whose contents are read in a thread; records that cannot be read are told on it."""
    try:
        values = await asyncio.to_thread(make)
    except RecordsError as wrong:
        values, said, status = {}, [*said, *reasons(wrong)], 422
        template = "shop/unreadable.html"
    return visit.html(template, status, said=said, **values)
