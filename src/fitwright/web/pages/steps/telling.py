"""The steps as the page shows them: words and values in the job's own unit."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime

from fitwright.job import Job
from fitwright.job.readings import Reading
from fitwright.making.plan import AskedReading
from fitwright.sheets.packet.pages.bench import allowed
from fitwright.sheets.packet.pages.steps import duration
from fitwright.units import Style
from fitwright.web.pages.steps.plan import Plan
from fitwright.web.pages.steps.standing import DONE, DRYING, READY, RUNNING, Standing, next_of, standings

SIGNS = {DONE: "✓", RUNNING: "▶", READY: "●", DRYING: "◔"}


@dataclass(frozen=True)
class Asked:
    """One reading as its field shows it: its words, what is wanted, what was read last, and the unit to write in."""

    of: str
    wanted: str
    read: str
    unit: str


@dataclass(frozen=True)
class Card:
    """One step. open: whether it is shown whole."""

    standing: Standing
    sign: str
    told: str
    planned: str
    picture: str
    asks: tuple[Asked, ...]
    open: bool


@dataclass(frozen=True)
class Followed:
    """All cards, what is next, what waits by the clock, and how far the whole is."""

    cards: tuple[Card, ...]
    next: Card | None
    waiting: tuple[Card, ...]
    done: int
    worked: str
    planned: str


def followed(job: Job, plan: Plan, now: datetime) -> Followed:
    """The page's contents at a moment."""
    all_ = standings(plan.steps, job.progress, now)
    order = [one.step.number for one in sorted(plan.schedule.steps, key=lambda one: (one.start.day, one.start.minute))]
    first = next_of(all_, order)
    last = {str(reading.of): reading for reading in job.readings}
    cards = tuple(_card(one, plan.pictures, last, job.style, one is first) for one in all_)
    return Followed(
        cards,
        next((card for card in cards if card.standing is first), None),
        tuple(card for card in cards if card.standing.state == DRYING),
        sum(card.standing.state == DONE for card in cards),
        duration(round(sum(one.seconds for one in all_) / 60)),
        duration(plan.schedule.work_minutes),
    )


def _card(one: Standing, pictures: Mapping[int, str], last: Mapping[str, Reading], style: Style, first: bool) -> Card:
    return Card(
        one,
        SIGNS.get(one.state, "○"),
        _told(one),
        duration(one.step.minutes) + (", two people" if one.step.hands > 1 else ""),
        pictures.get(one.step.number, ""),
        tuple(_asked(ask, last.get(ask.of), style) for ask in one.step.asks),
        first or one.state == RUNNING,
    )


def _told(one: Standing) -> str:
    """How it stands, in words."""
    if one.state == DRYING and one.until is not None:
        return f"waits until {one.until:%a %d %b %H:%M}" + (f": {one.why}" if one.why else "")
    if one.open:
        return f"after step {', '.join(map(str, one.open))}"
    if one.state == DONE and one.kept.done is not None:
        return f"done {one.kept.done:%a %d %b %H:%M}"
    return one.state


def _asked(ask: AskedReading, last: Reading | None, style: Style) -> Asked:
    unit = "µm or mil" if ask.of == "paint thickness" else "degrees" if ask.angle else style.unit
    return Asked(
        ask.of, _wanted(ask, style), "" if last is None else _value(last.value, last.of.angle, ask.of, style), unit
    )


def _wanted(ask: AskedReading, style: Style) -> str:
    if ask.asked is None:
        return ""
    off = "" if ask.tolerance is None else f" ± {_off(ask.tolerance, ask.angle, style)}"
    return f"{_value(ask.asked, ask.angle, ask.of, style)}{off}"


def _off(tolerance: float, angle: bool, style: Style) -> str:
    return style.angle(tolerance) if angle else allowed(tolerance, style)


def _value(value: float, angle: bool, of: str, style: Style) -> str:
    if of == "paint thickness":
        return f"{value * 1000:.0f} µm" if style.unit != "inch" else f"{value / 0.0254:.1f} mil"
    return style.angle(value) if angle else style.fine().length(value)


def keys(plan: Plan) -> Sequence[str]:
    """The names of the steps, as the job file keeps them."""
    return [step.key for step in plan.steps]
