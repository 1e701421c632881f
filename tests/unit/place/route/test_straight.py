"""Doors, corridors, vans and lifts that a box goes into straight."""

from __future__ import annotations

import pytest

from fitwright.job.obstacles import Corridor, Door, Lift, Van
from fitwright.place.route.model import LIFT_MM
from fitwright.place.route.proving import Proving
from fitwright.place.route.stances import rests
from fitwright.place.route.straight import corridor_trial, door_trial, into_trial, straight_door_trial
from fitwright.place.route.world import blocks
from tests.unit.place.route.boxes import box

UPRIGHT, ON_BACK, ON_SIDE = rests()


def test_a_door_takes_the_narrow_side() -> None:
    trial = door_trial(Door("door", width=800, height=2000), box(1200, 600, 1900), UPRIGHT)
    assert trial.side == pytest.approx(100)
    assert trial.above == pytest.approx(100 - LIFT_MM)


def test_what_rolls_need_not_be_lifted() -> None:
    trial = door_trial(Door("door", width=800, height=1900), box(1200, 600, 1900, rolls=True), UPRIGHT)
    assert trial.above == pytest.approx(0)
    assert trial.fits


def test_lying_down_helps_under_a_low_head() -> None:
    door, tall = Door("door", width=800, height=1900), box(700, 600, 2100)
    assert not door_trial(door, tall, UPRIGHT).fits
    assert door_trial(door, tall, ON_BACK).fits
    assert door_trial(door, tall, ON_SIDE).side == pytest.approx(100)


def test_every_way_is_free_of_what_stands_there() -> None:
    """The clearance that the collision library finds is the room that the formula gives."""
    one = box(700, 500, 1000)
    for obstacle, trial in (
        (door := Door("d", width=800, height=2000), door_trial(door, one, UPRIGHT)),
        (hall := Corridor("c", width=900, height=2400, length=3000), corridor_trial(hall, one, UPRIGHT)),
        (lift := Lift("l", door_width=800, door_height=2000, width=1000, depth=1200, height=2200),
         into_trial(lift, one, UPRIGHT)),
    ):  # fmt: skip
        proof = Proving(one, blocks(obstacle)).along(trial.lay())
        assert proof.free
        assert proof.least == pytest.approx(trial.side, abs=0.01)


def test_a_long_piece_does_not_go_straight_through_a_door_before_a_wall() -> None:
    door = Door("door", width=800, height=2000, before=1000)
    sideways, lengthways = (straight_door_trial(door, box(length, 600, 900), UPRIGHT) for length in (1900, 950))
    assert sideways is not None
    assert sideways.side == pytest.approx((800 - 1900) / 2)
    assert lengthways is not None
    assert lengthways.side == pytest.approx((800 - 600) / 2)
    assert straight_door_trial(Door("door", width=800, height=2000, before=500), box(950, 600, 900), UPRIGHT) is None


def test_a_lift_has_to_hold_it_with_the_door_shut() -> None:
    lift = Lift("lift", door_width=900, door_height=2000, width=1100, depth=1400, height=2200)
    assert into_trial(lift, box(1390, 600, 900), UPRIGHT).fits
    assert not into_trial(lift, box(1410, 600, 900), UPRIGHT).fits


def test_wheel_arches_narrow_a_van() -> None:
    van = Van("van", door_width=1500, door_height=1800, length=3000, width=1700, height=1800)
    narrow = Van("van", door_width=1500, door_height=1800, length=3000, width=1700, height=1800, arches=(1200.0, 250.0))
    wide = box(1300, 1250, 900)
    assert into_trial(van, wide, UPRIGHT).side == pytest.approx(125)
    assert into_trial(narrow, wide, UPRIGHT).side == pytest.approx(-25)
