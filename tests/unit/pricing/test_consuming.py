"""What is used up, and work done elsewhere."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

from fitwright.assess import assess
from fitwright.job import parse_job
from fitwright.pricing import Kind
from fitwright.pricing.consuming import add_finish, add_wear, add_welding
from fitwright.pricing.material import Lines
from fitwright.shop import UnitPrice
from tests.stand import SHOP, TEXT, missing, stand, with_prices

POWDER = TEXT.replace("degrease, prime, two coats of enamel", "degrease, powder coat")


def amounts(found: Lines) -> dict[str, Decimal]:
    return {line.what: line.amount for line in found.lines}


def test_wire_by_the_kilogram_and_gas_by_the_litre() -> None:
    found, used = Lines(SHOP), stand().welding
    assert used is not None
    add_welding(found, used)
    wire = Decimal(str(round(used.used.filler, 4))) * Decimal("7.80")
    assert amounts(found)["welding wire"] == SHOP.prices.pricing.coins(wire)


def test_a_price_by_the_pound_is_the_same_wire() -> None:
    by_pound = {"welding wire": UnitPrice(Decimal("3.53802"), "lb"), "shielding gas": UnitPrice(Decimal(1))}
    found, dear = Lines(SHOP), Lines(with_prices(SHOP, consumables=by_pound))
    add_welding(found, stand().welding)
    add_welding(dear, stand().welding)
    assert amounts(found)["welding wire"] == amounts(dear)["welding wire"]
    assert [one.what for one in dear.missing] == ["the price of shielding gas by the litre"]


def test_blades_by_the_cut() -> None:
    found = Lines(SHOP)
    add_wear(found, stand().cutting_plans, stand().steps)
    cuts = sum(len(bar.cuts) for plan in stand().cutting_plans.values() for bar in plan.bars)
    assert amounts(found) == {"sawing": cuts * SHOP.prices.consumables["sawing"].price}


def test_paint_in_whole_tins() -> None:
    found = Lines(SHOP)
    add_finish(found, stand().finishing, 6.0)
    tins = [line for line in found.lines if "tin" in line.quantity]
    assert {line.what for line in tins} == {"primer", "enamel"}
    assert all(line.amount in set(SHOP.prices.paint[line.what].values()) for line in tins)


def test_a_tin_that_nobody_priced() -> None:
    found = Lines(with_prices(SHOP, paint=missing(SHOP.prices.paint, "enamel")))
    add_finish(found, stand().finishing, 6.0)
    assert [one.where for one in found.missing] == ["'enamel' under paint in the shop file"]


def test_powder_coating_by_the_area_and_not_under_the_least() -> None:
    away = assess(parse_job(POWDER), SHOP)
    found = Lines(SHOP)
    add_finish(found, away.finishing, 6.0)
    (line,) = [line for line in found.lines if line.kind is Kind.OUTSIDE]
    assert line.amount == 80
    assert "the least" in line.basis
    dear = Lines(with_prices(SHOP, outside_work={"powder coat": UnitPrice(Decimal(500), "square metre")}))
    add_finish(dear, away.finishing, 6.0)
    (line,) = [line for line in dear.lines if line.kind is Kind.OUTSIDE]
    assert line.amount == SHOP.prices.pricing.coins(500 * Decimal(str(round(away.finishing.metal_m2, 4))))


def test_galvanising_by_the_weight() -> None:
    away = assess(parse_job(POWDER), SHOP)
    found = Lines(with_prices(SHOP, outside_work={"powder coat": UnitPrice(Decimal(2), "kg")}))
    add_finish(found, away.finishing, 6.5)
    (line,) = [line for line in found.lines if line.kind is Kind.OUTSIDE]
    assert line.amount == 13


def test_every_consumable_of_the_demos_has_a_price() -> None:
    """Names that the finish gives and the shipped prices meet, with grit or unit taken off."""
    found = Lines(SHOP)
    add_finish(found, stand().finishing, 6.0)
    assert not found.missing
    assert {"abrasive sheet 80", "solvent", "clean rags"} <= set(amounts(found))


def test_nothing_is_welded() -> None:
    found = Lines(SHOP)
    add_welding(found, None)
    plan = stand().welding
    assert plan is not None
    add_welding(found, replace(plan, used=type(plan.used)()))
    assert not found.lines


def test_an_inch_shop_reads_no_litres_and_kilograms() -> None:
    inch = Lines(replace(SHOP, unit="inch"))
    add_welding(inch, stand().welding)
    add_finish(inch, stand().finishing, 6.0)
    counted = {line.what: line.quantity for line in inch.lines}
    assert counted["welding wire"].endswith(" lb")
    assert counted["shielding gas"].endswith(" cubic feet")
    assert counted["solvent"].endswith(" fl oz")
    metric = Lines(SHOP)
    add_finish(metric, stand().finishing, 6.0)
    assert {line.what: line.quantity for line in metric.lines}["solvent"].endswith(" l")
    assert amounts(metric)["solvent"] == amounts(inch)["solvent"]
