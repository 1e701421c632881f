"""What a job costs: lines of money by kind and by step, how sure they are, and what is not known."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from enum import StrEnum
from functools import cached_property

from fitwright.pricing.hours import Spread

ZERO = Decimal(0)


class Kind(StrEnum):
    """What a line of cost is paid for, in the order in which it is told."""

    MATERIAL = "material"
    HARDWARE = "hardware"
    CONSUMABLES = "consumables"
    HOURS = "hours"
    MACHINES = "machines"
    OUTSIDE = "outside work"
    DELIVERY = "delivery"
    EXTRAS = "extras"
    REWORK = "rework"
    OVERHEAD = "overhead"


class Group(StrEnum):
    """Under which line of the client's quote a cost is."""

    MATERIAL = "Material and hardware"
    WORK = "Work in the shop"
    FINISH = "Finish"
    DELIVERY = "Delivery and setting up"
    EXTRAS = "Extras"


@dataclass(frozen=True)
class CostLine:
    """One line of cost.

    quantity: as read, such as `2 of 20' 0"` or `1.5 h`; amount: in the shop's currency, rounded to its coin, negative
    for what comes back. step: its number in the build, where it belongs to one.
    """

    kind: Kind
    group: Group
    what: str
    quantity: str
    amount: Decimal
    basis: str
    step: int | None = None


@dataclass(frozen=True)
class Missing:
    """A price that nobody has given: of what, and where it belongs."""

    what: str
    where: str


@dataclass(frozen=True)
class Cost:
    """Everything that a job costs the shop.

    hours: of work in all, with how unsure they are; labour: the same in money; unsure: by step, its share of that
    variance. Only the hours are taken as unsure, and the overhead that follows them.
    """

    currency: str
    lines: tuple[CostLine, ...]
    missing: tuple[Missing, ...]
    hours: Spread
    labour: Spread
    unsure: Mapping[int, float]
    overhead: Decimal

    @cached_property
    def total(self) -> Decimal:
        """The sum of the lines."""
        return sum((line.amount for line in self.lines), ZERO)

    @cached_property
    def by_kind(self) -> Mapping[Kind, Decimal]:
        """What each kind comes to, of those that there are."""
        found = {kind: [line.amount for line in self.lines if line.kind is kind] for kind in Kind}
        return {kind: sum(amounts, ZERO) for kind, amounts in found.items() if amounts}

    @cached_property
    def by_group(self) -> Mapping[Group, Decimal]:
        """What each group of the quote comes to, before overhead and rework."""
        direct = [line for line in self.lines if line.kind not in (Kind.OVERHEAD, Kind.REWORK)]
        found = {group: [line.amount for line in direct if line.group is group] for group in Group}
        return {group: sum(amounts, ZERO) for group, amounts in found.items() if amounts}

    def of_step(self, number: int) -> Decimal:
        """What one step costs: its hours and its machine."""
        return sum((line.amount for line in self.lines if line.step == number), ZERO)

    def covered_by(self, money: Decimal) -> float:
        """The chance that so much money covers what it really comes to, by the spread of the hours alone."""
        grown = 1 + float(self.overhead)
        sure = float(self.total) - self.labour.mean * grown
        return self.labour.at_most((float(money) - sure) / grown)
