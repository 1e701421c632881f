"""The whole cost of a job."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest

from fitwright.assess import assess
from fitwright.job import parse_job
from fitwright.pricing import Group, Kind
from fitwright.shop.learning import Learnt
from fitwright.shop.learning.hours import HoursFactor
from tests.demos import NAMES, assessed
from tests.stand import SHOP, TEXT, missing, stand, with_prices, with_pricing


def test_the_cost_is_the_sum_of_its_lines_and_of_its_kinds() -> None:
    cost = stand().cost
    assert cost.total == sum(line.amount for line in cost.lines)
    assert cost.total == sum(cost.by_kind.values())


def test_overhead_is_a_share_of_all_the_rest() -> None:
    cost = stand().cost
    rest = cost.total - cost.by_kind[Kind.OVERHEAD]
    assert cost.by_kind[Kind.OVERHEAD] == SHOP.prices.pricing.coins(rest * SHOP.prices.pricing.overhead)


def test_every_step_is_paid_for() -> None:
    cost = stand().cost
    assert {line.step for line in cost.lines if line.kind is Kind.HOURS} == {step.number for step in stand().steps}
    assert all(cost.of_step(step.number) > 0 for step in stand().steps)
    assert cost.hours.mean == pytest.approx(sum(step.minutes * step.hands for step in stand().steps) / 60)


@pytest.mark.parametrize("name", NAMES)
def test_the_demos_lack_no_price(name: str) -> None:
    cost = assessed(name).cost
    assert cost.missing == ()
    assert min(cost.by_group.values()) > 0


def test_the_way_there_and_back() -> None:
    """By hand: 18 for the delivery and 0.60 a kilometre: 20 km there and back are 24."""
    job = parse_job(TEXT + "price: {distance: 20 km, extras: [{what: a lift, price: 33}]}\n")
    cost = assess(job, SHOP).cost
    assert [line.amount for line in cost.lines if line.kind is Kind.DELIVERY] == [Decimal("42.00")]
    assert cost.by_group[Group.EXTRAS] == 33


def test_a_missing_price_is_told_and_counts_in_no_sum() -> None:
    poor = with_prices(SHOP, consumables=missing(SHOP.prices.consumables, "flap disc"))
    less = with_prices(poor, consumables=missing(poor.prices.consumables, "clean rags"))
    found = assess(stand().job, less)
    assert "the price of clean rags" in [one.what for one in found.cost.missing]
    assert found.cost.total < stand().cost.total
    told = [one for one in found.all_findings if one.area == "price"]
    assert {one.verdict.value for one in told} == {"needs input"}


def test_money_that_covers_it_half_of_the_time_is_less_than_the_cost() -> None:
    """Hours are skewed: the middle lies below the mean."""
    cost = stand().cost
    assert 0.5 < cost.covered_by(cost.total) < 0.6
    assert cost.covered_by(cost.total * 2) > 0.9999
    assert cost.covered_by(Decimal(0)) == 0.0


def test_sure_hours_are_covered_or_not() -> None:
    sure = assess(stand().job, with_pricing(SHOP, step_spread=0.0, job_spread=0.0)).cost
    assert sure.covered_by(sure.total + 1) == 1.0
    assert sure.covered_by(sure.total - 1) == 0.0


def test_a_dearer_hour_makes_a_dearer_job() -> None:
    dear = replace(SHOP, rates={task: rate * 2 for task, rate in SHOP.rates.items()})
    twice = assess(stand().job, dear).cost.by_kind[Kind.HOURS]
    assert abs(twice - 2 * stand().cost.by_kind[Kind.HOURS]) <= Decimal("0.01") * len(stand().steps)


def test_recorded_hours_make_the_next_price_differ() -> None:
    """Welding that takes half as long again, as the shop's records have it, is dearer."""
    learnt = assess(stand().job, SHOP, Learnt(hours={"weld": HoursFactor(1.5, 1.3, 1.7, 0.08, 0.02, 12)}))
    (before,) = [step for step in stand().steps if step.kind == "weld"]
    (after,) = [step for step in learnt.steps if step.kind == "weld"]
    assert after.minutes > before.minutes
    assert learnt.price.net > stand().price.net


def test_records_that_agree_make_it_surer_than_records_that_do_not() -> None:
    steady, wild = (
        assess(stand().job, SHOP, Learnt(hours={"weld": HoursFactor(1.5, 1.0, 2.0, spread, 0.02, 12)})).cost
        for spread in (0.05, 0.9)
    )
    assert steady.hours.mean == wild.hours.mean
    assert steady.hours.deviation < wild.hours.deviation
    (weld,) = [step.number for step in stand().steps if step.kind == "weld"]
    assert steady.unsure[weld] < wild.unsure[weld]
