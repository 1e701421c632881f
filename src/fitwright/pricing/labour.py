"""Hours by step in money, and the machines that they keep busy."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal

from fitwright.making.plan import Step
from fitwright.pricing.hours import Part, Spread, shares, together
from fitwright.pricing.material import Lines
from fitwright.pricing.model import Group, Kind
from fitwright.shop.learning import Learnt

MINUTES = 60
FINISH = ("clean", "prime", "paint", "oil", "send")
DELIVERED = ("deliver",)


@dataclass(frozen=True)
class Labour:
    """The hours of all steps, the same in money, and by step how much of what is unsure it makes, 0 to 1."""

    hours: Spread
    money: Spread
    unsure: Mapping[int, float]


def add_hours(found: Lines, steps: tuple[Step, ...], learnt: Learnt | None) -> Labour:
    """A line for each step and one for the machine that it keeps busy.

    Hours of two people count twice. learnt: what the shop's records say of each kind of step.
    """
    pricing, rates = found.shop.prices.pricing, found.shop
    hours, money = [], []
    for step in steps:
        worked = step.minutes * max(step.hands, 1) / MINUTES
        rate = rates.rate_for(step.task)
        amount = rate * Decimal(step.minutes * max(step.hands, 1)) / MINUTES
        told = f"{worked:.2f} h at {rate:g}" + (f", {step.hands} people" if step.hands > 1 else "")
        basis = f"shop file: rates, {step.task if step.task in rates.rates else 'shop'}"
        found.add(Kind.HOURS, group_of(step), step.title, told, amount, basis, step.number)
        _add_machine(found, step)
        own, of_kind = spread_of(step.kind, learnt, pricing.step_spread)
        hours.append(Part(worked, step.kind, own, of_kind))
        money.append(Part(float(amount), step.kind, own, of_kind))
    common = pricing.job_spread
    unsure = dict(zip((step.number for step in steps), shares(money, common), strict=True))
    return Labour(together(hours, common), together(money, common), unsure)


def spread_of(kind: str, learnt: Learnt | None, usual: float) -> tuple[float, float]:
    """How far off one step of a kind is by itself, and how far off the shop's time for the kind, as fractions.

    usual: for a kind of which nothing is recorded.
    Source: the coefficient of variation of a lognormal, sqrt(exp(s2) - 1).
    """
    told = None if learnt is None else learnt.hours_of(kind)
    if told is None or not told.count:
        return usual, 0.0
    return _relative(told.spread), _relative(told.of_mean)


def _relative(of_logarithm: float) -> float:
    return math.sqrt(math.expm1(of_logarithm**2))


def _add_machine(found: Lines, step: Step) -> None:
    if not step.station:
        return
    rate = found.shop.prices.machine_rates.get(step.station)
    if rate is None:
        lacking = f"the rate of the {step.station}"
        if all(one.what != lacking for one in found.missing):
            found.lack(lacking, f"{step.station!r} under machine_rates in the shop file")
        return
    told = f"{step.minutes / MINUTES:.2f} h at {rate:g}"
    amount = rate * Decimal(step.minutes) / MINUTES
    found.add(Kind.MACHINES, group_of(step), step.station, told, amount, "shop file: machine_rates", step.number)


def group_of(step: Step) -> Group:
    """Under which line of the quote a step is."""
    if step.kind in FINISH:
        return Group.FINISH
    return Group.DELIVERY if step.kind in DELIVERED else Group.WORK
