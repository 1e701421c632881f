"""What every check of one bend sheet is given."""

from __future__ import annotations

from dataclasses import dataclass

from fitwright.making.bending.model import BendSheet, BendStep
from fitwright.shop import Die, Shop
from fitwright.shop.learning import Learnt
from fitwright.stock import Stock
from fitwright.units import Style

AREA = "bending"


@dataclass(frozen=True)
class Case:
    """One sheet with its stock, shop, print style and the fraction of a limit below which a margin is tight.

    learnt: from the shop's trials, None for none.
    """

    sheet: BendSheet
    stock: Stock
    shop: Shop
    style: Style
    tight: float
    learnt: Learnt | None = None

    def die(self, step: BendStep) -> Die | None:
        """The die of a step."""
        return next((die for die in self.shop.dies if die.name == step.die), None)

    @property
    def tightest(self) -> BendStep:
        """The bend that stretches the metal most."""
        return max(self.sheet.steps, key=lambda step: step.stretch)
