"""Spreads of a shop by its own readings."""

from __future__ import annotations

from dataclasses import asdict

from fitwright.mechanics.variation.spreads import Spreads, usual_spreads, with_spreads
from fitwright.shop.learning import Learnt


def spreads_of_shop(learnt: Learnt, spreads: Spreads | None = None) -> Spreads:
    """Spreads, the usual ones where none are given, with those in their place that the shop's readings tell of.

    Source: `spread_from` in the shop's learning, with each spread given as what was known before.
    """
    before = spreads or usual_spreads()
    return with_spreads({name: found.value for name, found in learnt.spreads(asdict(before)).items()}, before)
