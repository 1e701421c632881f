from __future__ import annotations

import pickle
from dataclasses import replace

import pytest

from fitwright.shop import default_shop
from fitwright.shop.learning import Learnt, SlopePrior, learn
from fitwright.shop.records import Hours, OnHand
from tests.unit.shop.records.samples import DAY, EACH, OFFCUT, TRIAL, TUBE

SHOP = default_shop("inch")
PRIOR = SlopePrior(0.03, 0.03)


def test_nothing_recorded_changes_nothing() -> None:
    learnt = learn(SHOP)
    assert learnt.on(SHOP) == SHOP
    assert learnt.bend_law(TRIAL.die, TUBE, PRIOR) is None
    assert learnt.hours_of("bend").factor == pytest.approx(1.0)
    assert learnt.spreads({"bend_angle": 0.1}) == {}


def test_trials_are_taken_in_order_without_those_left_out() -> None:
    trials = [replace(TRIAL, id=2, got_deg=85.0), replace(TRIAL, id=3, got_deg=70.0, left_out=True),
              replace(TRIAL, id=1, got_deg=86.0)]  # fmt: skip
    law = learn(SHOP, trials).bend_law(TRIAL.die, TUBE, PRIOR)
    assert law is not None
    assert [round(one.got, 4) for one in law.trials] == [1.501, 1.4835]


def test_a_measured_piece_sets_the_die() -> None:
    learnt = learn(SHOP, [TRIAL] * 4)
    die = next(one for one in learnt.on(SHOP).dies if one.name == TRIAL.die)
    assert die.take_up == pytest.approx(0.98, abs=0.005)
    assert die.offset == pytest.approx(-3.1, abs=0.3)
    others = [one for one in learnt.on(SHOP).dies if one.name != TRIAL.die]
    assert others == [one for one in SHOP.dies if one.name != TRIAL.die]


def test_the_heat_on_the_rack_is_the_one_bent_next() -> None:
    trials = [replace(TRIAL, heat="a"), replace(TRIAL, heat="b")]
    for stock, heat in (
        ([], "b"),
        ([replace(OFFCUT, heat="a")], "a"),
        ([replace(OFFCUT, heat="a"), replace(OFFCUT, heat="c")], "b"),
        ([replace(OFFCUT, heat="a", count=0)], "b"),
        ([replace(OFFCUT, heat="a"), replace(OFFCUT, heat="")], "b"),
    ):
        law = learn(SHOP, trials, stock=stock).bend_law(TRIAL.die, TUBE, PRIOR)
        assert law is not None
        assert law.heat == heat


def test_hours_of_several_people_add_up() -> None:
    alone = Hours(DAY, "Rack", "bend A1", "bend", 2.0, 1, 1.0)
    two = replace(alone, hours=1.0, people=2)
    assert learn(SHOP, hours=[alone] * 5).hours["bend"] == learn(SHOP, hours=[two] * 5).hours["bend"]
    assert learn(SHOP, hours=[replace(alone, usual_hours=None)]).hours == {}


def test_it_can_be_handed_to_another_process() -> None:
    stock = [one for one in EACH if isinstance(one, OnHand)]
    learnt = learn(SHOP, [TRIAL], hours=[Hours(DAY, "R", "bend A1", "bend", 2.0, 1, 1.0)], stock=stock)
    back: Learnt = pickle.loads(pickle.dumps(learnt))
    assert back.bends == learnt.bends
    assert back.heats == {TUBE: "H7431"}
