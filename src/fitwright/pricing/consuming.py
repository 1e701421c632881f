"""What is used up: wire, gas, abrasives, solvent, paint, blades, drills, and work that is done elsewhere."""

from __future__ import annotations

import re
from collections.abc import Mapping
from decimal import Decimal

from fitwright.making.cutting import CuttingPlan
from fitwright.making.finishing import FinishWork
from fitwright.making.handing import small_volume
from fitwright.making.plan import Step
from fitwright.making.welding import WeldPlan
from fitwright.pricing.material import Lines
from fitwright.pricing.model import Group, Kind
from fitwright.shop.pricing import VOLUMES
from fitwright.units import Style

NAMED = re.compile(r"(?P<name>.+?)(?:,? (?P<unit>decilitre)s?| \d+)?")
"""A consumable as the finish has it: with its grit, or with the unit that it is counted in."""
WHERE = "{!r} under consumables in the shop file"
LISTED = "price in the shop file"


def add_welding(found: Lines, plan: WeldPlan | None) -> None:
    """Wire and gas of all welds."""
    if plan is None or not plan.used.filler:
        return
    _add(found, "welding wire", Decimal(str(round(plan.used.filler, 4))), "kg", Group.WORK)
    if plan.used.gas:
        _add(found, "shielding gas", Decimal(str(round(plan.used.gas, 1))), "litre", Group.WORK)


def add_wear(found: Lines, plans: Mapping[str, CuttingPlan], steps: tuple[Step, ...]) -> None:
    """Blades by the cut, drills and taps by the hole."""
    cuts = sum(len(bar.cuts) for plan in plans.values() for bar in plan.bars)
    holes = sum(number.ticks for step in steps if step.kind == "drill" for number in step.numbers)
    if cuts:
        _add(found, "sawing", Decimal(cuts), "piece", Group.WORK)
    if holes:
        _add(found, "drilling", Decimal(holes), "piece", Group.WORK)


def add_finish(found: Lines, work: FinishWork, steel_kg: float) -> None:
    """Abrasives, solvent, rags, tins, and a coat that is put on elsewhere; steel_kg: weight of the metal."""
    for one in work.consumables:
        said = NAMED.fullmatch(one.what)
        assert said is not None, "every name matches"
        _add(found, said["name"], Decimal(one.count), said["unit"] or "piece", Group.FINISH, one.what)
    for tins in work.tins:
        for count, tin, _ in tins.tins:
            _add_tin(found, tins.product, tin, count)
    if work.sent_out is not None:
        _add_outside(found, work.sent_out.name, work.metal_m2, steel_kg)


def _add(found: Lines, name: str, count: Decimal, unit: str, group: Group, told: str = "") -> None:
    price = found.shop.prices.consumables.get(name)
    each = None if price is None else price.for_one(unit)
    if price is None or each is None:
        found.lack(f"the price of {name}" + (f" by the {unit}" if price else ""), WHERE.format(name))
        return
    amount = max(each * count, price.least)
    counted = _counted(count, unit, inch=found.shop.unit == "inch")
    found.add(Kind.CONSUMABLES, group, told.split(",")[0] or name, counted, amount, LISTED)


def _counted(count: Decimal, unit: str, inch: bool) -> str:
    """A count as the shop reads it.

    >>> _counted(Decimal("0.2268"), "kg", inch=True), _counted(Decimal(4), "decilitre", inch=True)
    ('0.500 lb', '14 fl oz')
    >>> _counted(Decimal("56.6"), "litre", inch=True), _counted(Decimal(3), "piece", inch=True)
    ('2.0 cubic feet', '3')
    """
    style, amount = Style.inch() if inch else Style.metric(), float(count)
    if unit == "kg":
        return style.weight(amount)
    if unit == "decilitre":
        return small_volume(amount / 10, style)
    if unit == "litre":
        return f"{amount / float(VOLUMES['cubic foot']):.1f} cubic feet" if inch else f"{amount:.0f} l"
    return f"{count.normalize():f}" + ("" if unit == "piece" else f" {unit}")


def _add_tin(found: Lines, product: str, tin: str, count: int) -> None:
    price = found.shop.prices.paint.get(product, {}).get(tin)
    if price is None:
        found.lack(f"the price of a {tin} of {product}", f"{product!r} under paint in the shop file")
        return
    found.add(Kind.CONSUMABLES, Group.FINISH, product, f"{count} × {tin}", price * count, f"{LISTED}; whole tins")


def _add_outside(found: Lines, name: str, area_m2: float, steel_kg: float) -> None:
    price = found.shop.prices.outside_work.get(name)
    for unit, amount, sign in (("square metre", area_m2, "m²"), ("kg", steel_kg, "kg"), ("piece", 1.0, "piece")):
        each = None if price is None else price.for_one(unit)
        if price is not None and each is not None:
            money = max(each * Decimal(str(round(amount, 4))), price.least)
            told = LISTED + ("; the least that is charged" if money == price.least and money else "")
            found.add(Kind.OUTSIDE, Group.FINISH, name, f"{amount:.2f} {sign}", money, told)
            return
    found.lack(f"the price of {name}", f"{name!r} under outside_work in the shop file")
