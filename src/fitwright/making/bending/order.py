"""The two ways round to make a member: from either end."""

from __future__ import annotations

from dataclasses import dataclass, replace

from fitwright.making.bending.collision import collisions
from fitwright.making.bending.model import Collision, EndNeed
from fitwright.making.bending.table import BendTable
from fitwright.making.bending.tools import Tool
from fitwright.shop import Shop
from fitwright.stock import Stock


@dataclass(frozen=True, eq=False)
class Order:
    """One of the two ways round to make a member."""

    table: BendTable
    tools: tuple[Tool, ...]
    ends: tuple[EndNeed, EndNeed]
    backwards: bool

    def turned_round(self) -> Order:
        """The same member made from its other end."""
        return Order(self.table.reversed(), self.tools[::-1], self.ends[::-1], not self.backwards)

    @property
    def taken_up(self) -> tuple[float, ...]:
        """Length of tube in each bend [mm]."""
        pairs = zip(self.table.bends, self.tools, strict=True)
        return tuple(
            (tool.die.take_up if tool.die else 1.0) * (bend.radius + tool.neutral) * bend.angle for bend, tool in pairs
        )

    @property
    def finished_straights(self) -> tuple[float, float]:
        """The first and the last straight to the finished tips [mm]."""
        straights = self.table.straights
        return straights[0] + self.ends[0].longest, straights[-1] + self.ends[1].longest

    @property
    def needed_straights(self) -> tuple[float, float]:
        """What the dies need before the first bend and after the last [mm]; 0 where there is no die."""
        first, last = self.tools[0].die, self.tools[-1].die
        return first.lead if first else 0.0, last.grip if last else 0.0

    def allowances(self, trim: float) -> tuple[float, float]:
        """What is left on at the start and at the finish, to be cut off after bending [mm]."""
        pairs = zip(self.finished_straights, self.needed_straights, self.ends, strict=True)
        first, last = (
            max(needed - straight, trim if end.after_bending else 0.0, 0.0) for straight, needed, end in pairs
        )
        return first, last

    def of_blank(self, trim: float) -> BendTable:
        """The table with the ends as long as the blank leaves them."""
        lengths = [
            straight + left for straight, left in zip(self.finished_straights, self.allowances(trim), strict=True)
        ]
        first = replace(self.table.bends[0], straight_before=lengths[0])
        return BendTable((first, *self.table.bends[1:]), lengths[1])


def order_collisions(
    order: Order, stock: Stock | None, shop: Shop | None, trim: float, closed: bool
) -> tuple[Collision, ...] | None:
    """None where there is nothing to check: no stock, no shop, no die for the first bend, or rolls."""
    first = order.tools[0].die
    if stock is None or shop is None or first is None or first.rolls:
        return None
    u0, u1, v0, v1 = stock.section.extents
    # A loop is closed with its ends cut to length, so that they meet instead of overlapping.
    table = order.table if closed else order.of_blank(trim)
    pairs = zip(order.tools, order.table.bends, strict=True)
    angles = tuple(tool.springback.command if tool.springback else bend.angle for tool, bend in pairs)
    return collisions(table, angles, max(u1 - u0, v1 - v0), shop.bender_for(first), closed)


def preference(order: Order, hits: tuple[Collision, ...] | None, trim: float) -> tuple[int, float, bool]:
    """What to sort orders by: fewest collisions, then least tube wasted, then as drawn."""
    return len(hits or ()), round(sum(order.allowances(trim)), 6), order.backwards
