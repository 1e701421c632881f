from __future__ import annotations

import math
from dataclasses import replace

import pytest

from fitwright.assess import assess
from fitwright.job import load_job
from fitwright.making.bending import bend_from_legs, springback
from fitwright.making.bending.recorded import by_trials, slope_prior
from fitwright.shop import default_shop
from fitwright.shop.learning import Learnt, learn
from fitwright.stock import parse_stock
from fitwright.units import Style
from tests.demos import EXAMPLES
from tests.unit.shop.records.samples import TRIAL, TUBE

D = math.radians(1.0)
SHOP = default_shop("inch")
STOCK = parse_stock(TUBE)
DIE = next(die for die in SHOP.dies if die.name == TRIAL.die)
PHYSICS = springback(STOCK.section, STOCK.material, DIE.radius, 90 * D)
THREE = learn(SHOP, [replace(TRIAL, got_deg=got, leg_start=None) for got in (85.8, 85.6, 85.9)])


def test_without_trials_it_is_physics_itself() -> None:
    assert by_trials(PHYSICS, DIE, TUBE, 90 * D, Learnt()) is PHYSICS
    other = replace(DIE, name="another")
    assert by_trials(PHYSICS, other, TUBE, 90 * D, THREE) is PHYSICS


def test_three_trials_move_it_to_what_they_say() -> None:
    """They keep 85.77 / 90 of the angle: 90 / 0.953 is 94.44 where all of it is in proportion."""
    found = by_trials(PHYSICS, DIE, TUBE, 90 * D, THREE)
    assert found.command == pytest.approx(94.4 * D, abs=0.15 * D)
    assert found.low < found.command < found.high
    assert found.high - found.low < 1.5 * D
    assert found.kept == pytest.approx(90 * D / found.command)
    assert (found.trials, found.basis) == (3, "3 trials on this die, heat H7431")


def test_trials_that_contradict_one_another_leave_physics() -> None:
    wild = learn(SHOP, [replace(TRIAL, got_deg=got) for got in (88.0, 60.0, 75.0, 40.0)])
    assert by_trials(PHYSICS, DIE, TUBE, 90 * D, wild) is PHYSICS


def test_the_prior_is_wider_than_the_yield_stress_alone_makes_it() -> None:
    prior = slope_prior(PHYSICS, 90 * D)
    assert prior.slope == pytest.approx(1 - PHYSICS.kept)
    assert prior.spread > prior.slope


def test_the_bend_sheet_takes_the_trials_and_says_so() -> None:
    args = ([500.0, 500.0], [90 * D])
    before = bend_from_legs(*args, radius=DIE.radius, stock=STOCK, shop=SHOP, style=Style.inch())
    after = bend_from_legs(*args, radius=DIE.radius, stock=STOCK, shop=SHOP, style=Style.inch(), learnt=THREE)
    assert before.steps[0].command_angle == pytest.approx(PHYSICS.command)
    assert after.steps[0].command_angle == pytest.approx(94.4 * D, abs=0.15 * D)
    assert after.steps[0].angle == before.steps[0].angle
    assert any("from 3 trials on this die, heat H7431" in note for note in after.notes)
    assert any("Bend a trial" in note for note in before.notes)


def test_a_measured_take_up_and_offset_change_the_blank_and_the_marks() -> None:
    """The first hoop of the drying rack: three measured pieces, then another blank, marks and angle."""
    job = load_job(EXAMPLES / "drying-rack" / "job.yaml")
    tube = next(iter(assess(job, SHOP).bend_sheets.values())).stock
    die = next(iter(assess(job, SHOP).bend_sheets.values())).steps[0].die
    radius = next(one.radius for one in SHOP.dies if one.name == die)
    trials = [replace(TRIAL, section=tube, die=die, radius=radius)] * 3
    learnt = learn(SHOP, trials)
    before, after = assess(job, SHOP), assess(job, learnt.on(SHOP), learnt)
    (mark, old), new = next(iter(before.bend_sheets.items())), next(iter(after.bend_sheets.values()))
    bent = sum(step.radius * step.angle for step in old.steps)
    take_up, off = learnt.take_ups[die].value, learnt.offsets[die].value
    assert new.blank == pytest.approx(old.blank - (1 - take_up) * bent)
    assert new.steps[0].mark == pytest.approx(old.steps[0].mark + off)
    assert new.steps[0].command_angle > old.steps[0].command_angle + 2 * D
    finding = next(one for one in after.findings if one.subject == mark and "springback included" in one.check)
    assert finding.basis.startswith("3 trials on this die")
