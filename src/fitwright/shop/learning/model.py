"""What the shop has learnt, as the other rooms take it: frozen, without any database behind it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from functools import cache

from fitwright.shop.learning.hours import HoursFactor, hours_factors
from fitwright.shop.learning.pieces import Estimate
from fitwright.shop.learning.sources import ErrorsRead, spreads_learnt
from fitwright.shop.learning.spreads import SpreadLearnt
from fitwright.shop.learning.springback import BendLaw, BendTrial, SlopePrior
from fitwright.shop.model import Die, Shop


@cache
def _nothing_recorded() -> HoursFactor:
    return hours_factors(())[""]


@dataclass(frozen=True, eq=False)
class Learnt:
    """Trials by die and section (names and labels as the shop file and stock have them); which heat of each stock is on
    the rack; take-up and offset by die; time over the table's by kind of step; readings by the errors they tell of."""

    bends: Mapping[tuple[str, str], tuple[BendTrial, ...]] = field(default_factory=dict)
    heats: Mapping[str, str] = field(default_factory=dict)
    take_ups: Mapping[str, Estimate] = field(default_factory=dict)
    offsets: Mapping[str, Estimate] = field(default_factory=dict)
    hours: Mapping[str, HoursFactor] = field(default_factory=dict)
    read: tuple[ErrorsRead, ...] = ()

    def bend_law(self, die: str, section: str, prior: SlopePrior) -> BendLaw | None:
        """What trials say of a die and section in the heat that is on the rack; None where there are none.

        Where no heat is said to be on the rack, the last trial's is taken.
        """
        trials = self.bends.get((die, section), ())
        return BendLaw(trials, prior, self.heats.get(section) or trials[-1].heat) if trials else None

    def hours_of(self, kind: str) -> HoursFactor:
        """Time over the table's for a kind of step; 1 with its usual spread where nothing is recorded."""
        return self.hours.get(kind) or self.hours.get("") or _nothing_recorded()

    def spreads(self, usual: Mapping[str, float]) -> dict[str, SpreadLearnt]:
        """Spreads of the errors that readings tell of; usual: the defaults by name [mm, rad]."""
        return spreads_learnt(self.read, usual)

    def on(self, shop: Shop) -> Shop:
        """The shop with its dies as measured."""
        return replace(shop, dies=tuple(self._measured(die) for die in shop.dies))

    def _measured(self, die: Die) -> Die:
        up, off = self.take_ups.get(die.name), self.offsets.get(die.name)
        return replace(die, take_up=up.value if up else die.take_up, offset=off.value if off else die.offset)
