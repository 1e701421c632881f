"""What has to be made again, on average."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest

from fitwright.checks.fit_chance import WORDS
from fitwright.making.plan import usual_rates
from fitwright.mechanics.variation import VirtualBuilds
from fitwright.pricing import Group, Kind
from fitwright.pricing.material import Lines
from fitwright.pricing.rework import add_rework, doubts, remedies
from tests.stand import SHOP, stand


def builds(**chances: float) -> VirtualBuilds:
    """Virtual builds with these chances, by name, of as many directions as there are words in it."""
    whole = stand().builds
    assert whole is not None
    known = whole.chances[0]
    told = [replace(known, name=name.replace("_", " "), subject="one", value=value) for name, value in chances.items()]
    return replace(whole, chances=tuple(told))


def test_what_is_too_large_is_not_tight_as_well() -> None:
    found = doubts(builds(fits=0.9, fits_as_wanted=0.7))
    assert found["fits"] == pytest.approx(0.1)
    assert found["fits as wanted"] == pytest.approx(0.2)


def test_directions_add_up_and_never_to_more_than_all() -> None:
    one = builds(fits=0.4)
    both = replace(one, chances=(*one.chances, *one.chances))
    assert doubts(both)["fits"] == 1.0


def test_by_hand() -> None:
    """A tenth of the time: half of a weld of 100, and a quarter of metal of 40: (50 + 10) / 10 is 6."""
    found = Lines(SHOP)
    found.add(Kind.MATERIAL, Group.MATERIAL, "tube", "", Decimal(40), "")
    found.add(Kind.HOURS, Group.WORK, "Weld", "", Decimal(100), "", 1)
    weld = next(step for step in stand().steps if step.kind == "weld")
    add_rework(found, builds(fits=0.9), (replace(weld, number=1),))
    assert [line.amount for line in found.lines if line.kind is Kind.REWORK] == [Decimal("6.00")]


def test_nothing_in_doubt_costs_nothing() -> None:
    found = Lines(SHOP)
    add_rework(found, builds(fits=1.0), stand().steps)
    add_rework(found, None, stand().steps)
    assert not found.lines


def test_every_demand_has_a_remedy_of_steps_that_there_are() -> None:
    assert set(remedies()) == set(WORDS)
    assert {kind for remedy in remedies().values() for kind in remedy.steps} <= set(usual_rates())
