"""Dies and their trials: what to bend to and how sure it is, with a picture of the springback and its band."""

from __future__ import annotations

import math
from collections import Counter
from dataclasses import replace
from datetime import date
from typing import Any
from urllib.parse import urlencode

from starlette.responses import Response

from fitwright.errors import FitwrightError
from fitwright.making.bending.trialled import Trialled, trialled
from fitwright.shop import Die
from fitwright.shop.learning import Estimate, Learnt, learn
from fitwright.shop.records import OnHand, Trial
from fitwright.shop.trying import Try, trials_of
from fitwright.stock import parse_stock
from fitwright.units import Style
from fitwright.web.errors import NotThere
from fitwright.web.pages.shop.kept import (
    all_of,
    changed,
    chosen,
    equipped,
    filled,
    place_of,
    shown,
    style_of,
    typed_in,
    whole,
)
from fitwright.web.pages.shop.plot import plot_of
from fitwright.web.visit import Visit

WORDS = ("heat", "blank", "legs", "mark", "note")


async def dies(visit: Visit, said: list[str] | None = None, status: int = 200) -> Response:
    """The page: every die, and for those with trials what they say for a right angle."""
    return await shown(visit, "shop/dies.html", said or [], status, lambda: _dies(visit))


def _dies(visit: Visit) -> dict[str, Any]:
    shop, style = equipped(visit).shop, style_of(visit)
    trials = all_of(place_of(visit), Trial)
    counted = Counter((trial.die, trial.section) for trial in trials)
    learnt = learn(shop, trials, stock=all_of(place_of(visit), OnHand))
    known = []
    for (die_name, section), count in sorted(counted.items()):
        die = next((one for one in shop.dies if one.name == die_name), None)
        bend, said = _in_short(die, section, learnt, style)
        row = {"die": die_name, "section": section, "count": count, "to": address(die_name, section)}
        known.append({**row, "bend": bend, "said": said})
    dies = [(die, style.length(die.radius), style.length(die.od)) for die in shop.dies if not die.rolls]
    labels = sorted({bar.label for bar in shop.stock_lengths})
    return {"known": known, "dies": dies, "labels": labels, "typed": _typed(visit), "shop": shop}


def _in_short(die: Die | None, section: str, learnt: Learnt, style: Style) -> tuple[str, str]:
    """What to bend to for a right angle, and what there is to say of it."""
    if die is None:
        return "", "not in the shop file any more"
    try:
        found = trialled(die, parse_stock(section), learnt)
    except FitwrightError as wrong:
        return "", str(wrong)
    now, angle = found.now, style.angle
    doubt = "a doubt" if found.outliers or found.drift else ""
    return f"{angle(now.command)} ({angle(now.low)} to {angle(now.high)})", doubt


def _typed(visit: Visit) -> dict[str, str]:
    """What the form for a trial begins with."""
    begun = dict.fromkeys(("asked", "got", *WORDS), "")
    asked_for = {name: chosen(visit, name) for name in ("die", "stock")}
    return {**begun, **asked_for, **typed_in(visit, "/shop/dies/trial")}


async def one(visit: Visit, said: list[str] | None = None, status: int = 200) -> Response:
    """What is known of one die in one stock."""
    return await shown(visit, "shop/die.html", said or [], status, lambda: _one(visit))


def _one(visit: Visit) -> dict[str, Any]:
    shop, style = equipped(visit).shop, style_of(visit)
    name, section = chosen(visit, "die"), chosen(visit, "stock")
    die = next((die for die in shop.dies if die.name == name), None)
    if die is None:
        raise NotThere(f"there is no die {name[:60]!r} in the shop file")
    trials = all_of(place_of(visit), Trial)
    learnt = learn(shop, trials, stock=all_of(place_of(visit), OnHand))
    found = trialled(die, parse_stock(section, unit=shop.unit), learnt)
    mine = sorted((t for t in trials if (t.die, t.section) == (name, found.stock.label)), key=lambda t: (t.day, t.id))
    left_out = [trial for trial in mine if trial.left_out]
    up, off = learnt.take_ups.get(name), learnt.offsets.get(name)
    return {
        "die": die, "section": found.stock.label, "told": found.told(style), "plot": plot_of(found, left_out, style),
        "trials": [_row(trial, style) for trial in mine], "rows": _table(found, style),
        "take_up": up, "offset": off and _measured(off, style),
        "here": address(name, found.stock.label),
    }  # fmt: skip


def _measured(found: Estimate, style: Style) -> tuple[str, str, str, int]:
    """A length from trial pieces in words: value, range, count."""
    return style.length(found.value), style.length(found.low), style.length(found.high), found.count


async def keep(visit: Visit) -> Response:
    """Keep a trial."""
    said = {name: filled(visit, name) for name in WORDS}
    got = tuple(part for part in filled(visit, "got").split(";") if part.strip())
    written = Try(visit.field("die"), visit.field("stock"), visit.field("asked"), got or ("",), **said)
    kept: list[Trial] = []

    def add(records: Any) -> None:
        _, _, trials = trials_of(written, equipped(visit).shop, date.today())
        kept.extend(records.add_all(trials))

    answer = await changed(visit, add, "/shop/dies", dies)
    return visit.on_to(address(kept[0].die, kept[0].section)) if kept else answer


async def leave_out(visit: Visit) -> Response:
    """Leave a trial out of what is learnt, or take it in again."""
    out = visit.field("out") == "yes"
    number, version = int(visit.part("number")), whole(visit, "version")
    which: list[Trial] = []

    def change(records: Any) -> None:
        trial = records.one(Trial, number)
        which.append(records.replace(replace(trial, left_out=out, version=version)))

    answer = await changed(visit, change, "/shop/dies", dies)
    return visit.on_to(address(which[0].die, which[0].section)) if which else answer


def address(die: str, section: str) -> str:
    """Where the page of a die in a stock is."""
    return f"/shop/dies/of?{urlencode({'die': die, 'stock': section})}"


def _row(trial: Trial, style: Style) -> dict[str, Any]:
    lengths = [(word, value) for word, value in (
        ("blank", trial.blank), ("start leg", trial.leg_start), ("other leg", trial.leg_end), ("mark", trial.mark),
    ) if value is not None]  # fmt: skip
    opened = math.radians(trial.asked_deg - trial.got_deg)
    return {
        "trial": trial, "asked": style.angle(math.radians(trial.asked_deg)),
        "got": style.angle(math.radians(trial.got_deg)), "opened": style.angle(opened),
        "measured": ", ".join(f"{word} {style.length(value)}" for word, value in lengths),
    }  # fmt: skip


def _table(found: Trialled, style: Style) -> list[tuple[str, str, str, str]]:
    """The picture as numbers, every fourth point."""
    return [
        (style.angle(p.asked), style.angle(p.mean), f"{style.angle(p.low)} to {style.angle(p.high)}",
         style.angle(found.by_physics(p.asked)))
        for p in found.curve()[::4]
    ]  # fmt: skip
