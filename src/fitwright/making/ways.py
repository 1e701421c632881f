"""The shop's own ways of working, in the terms of the trades."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import asdict, replace

from fitwright.making.finishing.model import Air
from fitwright.making.plan import Rate, WorkingHours, usual_rates
from fitwright.shop import Saw
from fitwright.shop.working import Working


def own_rates(working: Working) -> Mapping[str, Rate]:
    """The usual rates of the kinds of step for which the shop gives its own minutes, with these in their place."""
    usual = usual_rates()
    found = {}
    for kind, told in working.times.items():
        given = {name: minutes for name, minutes in asdict(told).items() if minutes is not None}
        found[kind] = replace(usual[kind], **given, basis="set by the shop")
    return found


def own_air(working: Working) -> Air:
    """The air that paint dries in; the usual where the shop gives none."""
    return Air() if working.air is None else Air(working.air.temperature, working.air.humidity)


def own_hours(working: Working) -> WorkingHours:
    """When the shop works."""
    return WorkingHours(working.hours, working.opens, working.weekdays, working.off)


def end_trim(saw: Saw, working: Working, *, timber: bool) -> float:
    """What is cut off a bar or board before its first piece [mm]: of a board the checks of both ends, if more."""
    return max(saw.end_trim, 2 * working.boards.end_checks) if timber else saw.end_trim
