"""Hours and machines in money."""

from __future__ import annotations

from decimal import Decimal

import pytest

from fitwright.making.plan import Step
from fitwright.pricing import Group, Kind
from fitwright.pricing.labour import add_hours, group_of, spread_of
from fitwright.pricing.material import Lines
from fitwright.shop.learning import Learnt
from fitwright.shop.learning.hours import HoursFactor
from tests.stand import SHOP, missing, with_prices


def step(number: int, kind: str, minutes: int, hands: int = 1, station: str = "", task: str = "welding") -> Step:
    return Step(number, kind, kind.capitalize(), (), (), (), minutes, (), (), hands, station=station, task=task)


STEPS = (
    step(1, "weld", 90, station="bench"),
    step(2, "deliver", 60, 2, task="delivery"),
    step(3, "paint", 30, task="rust"),
)


def test_by_hand() -> None:
    """1.5 h at 66 is 99, the bench 1.5 h at 3 is 4.50; two people for 1 h at 55 are 110; half an hour of 62 is 31."""
    found = Lines(SHOP)
    labour = add_hours(found, STEPS, None)
    assert [(line.kind, line.amount, line.step) for line in found.lines] == [
        (Kind.HOURS, Decimal("99.00"), 1),
        (Kind.MACHINES, Decimal("4.50"), 1),
        (Kind.HOURS, Decimal("110.00"), 2),
        (Kind.HOURS, Decimal("31.00"), 3),
    ]
    assert labour.hours.mean == pytest.approx(4.0)
    assert labour.money.mean == pytest.approx(240.0)
    assert sum(labour.unsure.values()) == pytest.approx(1.0)


def test_a_machine_without_a_rate_is_missing_once() -> None:
    found = Lines(with_prices(SHOP, machine_rates=missing(SHOP.prices.machine_rates, "bench")))
    add_hours(found, (*STEPS, step(4, "tack", 5, station="bench")), None)
    assert [one.what for one in found.missing] == ["the rate of the bench"]


def test_which_line_of_the_quote_a_step_is_under() -> None:
    assert [group_of(one) for one in STEPS] == [Group.WORK, Group.DELIVERY, Group.FINISH]


def test_a_kind_without_records_has_the_usual_spread() -> None:
    assert spread_of("weld", None, 0.3) == (0.3, 0.0)


def test_a_kind_with_records_has_theirs() -> None:
    """By hand: a deviation of the logarithm of 0.2 is sqrt(exp(0.04) - 1) = 0.2020 of the time."""
    learnt = Learnt(hours={"weld": HoursFactor(1.4, 1.0, 1.9, 0.2, 0.05, 6)})
    own, of_kind = spread_of("weld", learnt, 0.3)
    assert own == pytest.approx(0.2020, abs=1e-4)
    assert of_kind == pytest.approx(0.0500, abs=1e-4)
    assert spread_of("paint", learnt, 0.3) == (0.3, 0.0)
