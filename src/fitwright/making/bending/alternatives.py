"""Which other die would do: for the advice beside a finding."""

from __future__ import annotations

import math

from fitwright.making.bending.model import BendSheet, BendStep
from fitwright.shop import Die, Shop
from fitwright.stock import Stock
from fitwright.units import Style


def dies_in_words(shop: Shop, stock: Stock, style: Style) -> str:
    """The radii that the shop has for this stock, in words."""
    dies = shop.dies_for(stock.section)
    drawn = [style.length(die.radius) for die in dies if not die.rolls]
    rolled = [f"rolls from {style.length(die.radius)} up" for die in dies if die.rolls]
    if not dies:
        return "the shop has none for this size"
    return "the shop has " + ", ".join([*drawn, *rolled])


def die_for_straight(sheet: BendSheet, step: BendStep, stock: Stock, shop: Shop, style: Style) -> str:
    """ " or take the 3" die": the largest die with which the straight before a step becomes long enough; "" if none.

    The corners stay where they are; both neighbouring bends are made on that die.
    """
    before = sheet.steps[step.number - 2]
    for die in reversed(shop.dies_for(stock.section)):
        if not die.rolls and die.radius < step.radius and _straight_on(die, before, step) >= die.between:
            return f" or take the {style.length(die.radius)} die"
    return ""


def _straight_on(die: Die, before: BendStep, step: BendStep) -> float:
    """The straight between two bends [mm] when both are made on a die; bends of half a turn have no corner."""
    if max(before.angle, step.angle) > math.pi - 1e-3:
        return -math.inf
    gained = (before.radius - die.radius) * math.tan(before.angle / 2) + (step.radius - die.radius) * math.tan(
        step.angle / 2
    )
    return step.straight_before + gained
