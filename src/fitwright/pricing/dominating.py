"""What the price hangs on: what is most of it, and what makes it unsure."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from fitwright.pricing.model import Cost, CostLine, Kind
from fitwright.shop import Pricing

TENTH = Decimal("0.1")
FOLLOWING = (Kind.OVERHEAD, Kind.REWORK)
"""Kinds that follow from the others, and are not decided by themselves."""


@dataclass(frozen=True)
class Weight:
    """One thing that the price hangs on.

    share: of the cost before overhead and rework, 0 to 1. tenth: what the price before tax would be more by, were it a
    tenth dearer. unsure: its share of the variance of the cost by the spread of the hours, 0 to 1.
    """

    what: str
    amount: Decimal
    share: float
    tenth: Decimal
    unsure: float


def by_kind(cost: Cost, margin: Decimal, pricing: Pricing) -> tuple[Weight, ...]:
    """Kinds of cost, the largest first."""
    return _ranked({str(kind): _of(cost, kind) for kind in Kind if kind not in FOLLOWING}, cost, margin, pricing)


def by_step(cost: Cost, margin: Decimal, pricing: Pricing) -> tuple[Weight, ...]:
    """Steps with the machines that they keep busy, the largest first."""
    titles: dict[int, str] = {}
    lines: dict[int, list[CostLine]] = {}
    for line in cost.lines:
        if line.step is not None:
            titles.setdefault(line.step, line.what)
            lines.setdefault(line.step, []).append(line)
    named = {f"{number} {titles[number]}": lines[number] for number in lines}
    return _ranked(named, cost, margin, pricing)


def _of(cost: Cost, kind: Kind) -> list[CostLine]:
    return [line for line in cost.lines if line.kind is kind]


def _ranked(groups: dict[str, list[CostLine]], cost: Cost, margin: Decimal, pricing: Pricing) -> tuple[Weight, ...]:
    direct = sum((line.amount for line in cost.lines if line.kind not in FOLLOWING), Decimal(0))
    grown = (1 + pricing.overhead) / (1 - margin)
    found = []
    for what, lines in groups.items():
        amount = sum((line.amount for line in lines), Decimal(0))
        if amount:
            share = float(amount / direct) if direct else 0.0
            tenth = pricing.coins(amount * TENTH * grown)
            found.append(Weight(what, amount, share, tenth, _unsure(lines, cost)))
    return tuple(sorted(found, key=lambda one: -one.amount))


def _unsure(lines: list[CostLine], cost: Cost) -> float:
    """What the steps among the lines make of the variance of the hours."""
    steps = {line.step for line in lines if line.kind is Kind.HOURS and line.step is not None}
    return sum(cost.unsure[number] for number in steps)
