from __future__ import annotations

import math
from dataclasses import replace

import pytest

from fitwright.making.bending import BendError
from fitwright.making.bending.trialled import trialled, trials_asked
from fitwright.shop import default_shop
from fitwright.shop.learning import Learnt, learn
from fitwright.stock import parse_stock
from fitwright.units import Style
from tests.unit.shop.records.samples import TRIAL, TUBE

D = math.radians(1.0)
SHOP = default_shop("inch")
STOCK = parse_stock(TUBE)
DIE = next(die for die in SHOP.dies if die.name == TRIAL.die)


def test_an_untried_die_is_physics_and_worth_a_trial() -> None:
    found = trialled(DIE, STOCK, Learnt())
    assert found.now is found.physics
    assert found.law is None
    assert found.worth.trials >= 1
    said = " ".join(found.told(Style.inch()))
    assert "elastic-perfectly plastic" in said
    assert "more trial" in said


def test_the_curve_follows_the_trials_and_its_band_holds_them() -> None:
    trials = [replace(TRIAL, asked_deg=asked, got_deg=asked - opened) for asked, opened in
              ((45, 2.2), (60, 2.9), (90, 4.3), (90, 4.1), (120, 5.6))]  # fmt: skip
    found = trialled(DIE, STOCK, learn(SHOP, trials))
    at = min(found.curve(), key=lambda point: abs(point.asked - 90 * D))
    assert at.mean == pytest.approx(4.2 * D, abs=0.2 * D)
    assert at.low < 4.1 * D < 4.3 * D < at.high
    assert found.by_physics(90 * D) < 0.5 * at.mean
    assert all(point.low < point.mean < point.high for point in found.curve())


def test_an_odd_trial_and_a_drift_are_said() -> None:
    good = [replace(TRIAL, got_deg=90 - opened) for opened in (4.2, 4.3, 4.1, 4.2, 4.4, 4.2, 4.1, 4.3)]
    odd = [*good[:3], replace(TRIAL, got_deg=82.0), *good[3:]]
    said = " ".join(trialled(DIE, STOCK, learn(SHOP, odd)).told(Style.inch()))
    assert "Trial 4 came out at 82.0°" in said
    later = [replace(TRIAL, got_deg=90 - opened) for opened in (5.6, 5.5, 5.7, 5.6, 5.5, 5.6)]
    said = " ".join(trialled(DIE, STOCK, learn(SHOP, [*good, *later])).told(Style.inch()))
    assert "From trial 9 on bends open 1.4° more than before" in said


def test_contradicting_trials_are_said() -> None:
    wild = learn(SHOP, [replace(TRIAL, got_deg=got) for got in (88.0, 60.0, 75.0, 40.0)])
    assert "contradict one another" in " ".join(trialled(DIE, STOCK, wild).told(Style.metric()))


@pytest.mark.parametrize("name", ["rolls 1 1/8", "1 x 4"])
def test_a_die_that_cannot_be_tried_is_refused(name: str) -> None:
    with pytest.raises(BendError, match="no trial is kept"):
        trialled(next(die for die in SHOP.dies if die.name == name), STOCK, Learnt())


def test_as_many_trials_are_asked_for_as_pay_and_never_none() -> None:
    few, many = (trials_asked([(DIE.name, STOCK, 2), (DIE.name, STOCK, more)], SHOP.dies, None) for more in (2, 40))
    key = (DIE.name, STOCK.label)
    assert few == {key: trialled(DIE, STOCK, Learnt(), 4).worth.trials}
    assert many == {key: trialled(DIE, STOCK, Learnt(), 42).worth.trials}
    assert many[key] > few[key]
    tried = learn(SHOP, [replace(TRIAL, asked_deg=90, got_deg=85.8 + 0.1 * k) for k in range(8)])
    assert trialled(DIE, STOCK, tried, 4).worth.trials == 0
    assert trials_asked([(DIE.name, STOCK, 4)], SHOP.dies, tried) == {key: 1}


def test_rolls_and_stock_without_a_die_get_one_trial() -> None:
    rolls = next(die for die in SHOP.dies if die.rolls)
    assert trials_asked([("", STOCK, 9), (rolls.name, STOCK, 9)], SHOP.dies, None) == {
        ("", STOCK.label): 1, (rolls.name, STOCK.label): 1,
    }  # fmt: skip
