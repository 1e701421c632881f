"""What the price hangs on."""

from __future__ import annotations

from decimal import Decimal

import pytest

from fitwright.pricing import Kind
from fitwright.pricing.dominating import by_kind, by_step
from tests.stand import SHOP, stand

MARGIN = Decimal("0.2")
PRICING = SHOP.prices.pricing


def test_shares_of_kinds_add_up() -> None:
    kinds = by_kind(stand().cost, MARGIN, PRICING)
    assert sum(one.share for one in kinds) == pytest.approx(1.0)
    assert [one.amount for one in kinds] == sorted((one.amount for one in kinds), reverse=True)
    assert {one.what for one in kinds}.isdisjoint({"overhead", "rework"})


def test_only_hours_are_unsure() -> None:
    kinds = {one.what: one for one in by_kind(stand().cost, MARGIN, PRICING)}
    assert kinds["hours"].unsure == pytest.approx(1.0)
    assert kinds["material"].unsure == 0.0


def test_a_tenth_more_by_hand() -> None:
    """A tenth of the hours, with 14 % of overhead, at a margin of 20 %: over 0.8."""
    hours = stand().cost.by_kind[Kind.HOURS]
    (told,) = [one for one in by_kind(stand().cost, MARGIN, PRICING) if one.what == "hours"]
    assert told.tenth == PRICING.coins(hours / 10 * Decimal("1.14") / Decimal("0.8"))


def test_every_step_once_with_its_machine() -> None:
    steps = by_step(stand().cost, MARGIN, PRICING)
    assert len(steps) == len(stand().steps)
    assert sum(one.unsure for one in steps) == pytest.approx(1.0)
    kinds = stand().cost.by_kind
    assert sum(one.amount for one in steps) == kinds[Kind.HOURS] + kinds[Kind.MACHINES]
