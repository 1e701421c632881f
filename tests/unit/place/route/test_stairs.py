"""Flights and landings, seen from the side."""

from __future__ import annotations

import numpy as np
import pytest

from fitwright.job.obstacles import Landing, Stairs
from fitwright.place.route.model import LIFT_MM
from fitwright.place.route.proving import Proving
from fitwright.place.route.stairs import Flight, across_trial, flight_trials, landing_trial
from fitwright.place.route.stances import rests
from fitwright.place.route.world import flight, landing_blocks
from tests.unit.place.route.boxes import box

UPRIGHT, ON_BACK, _ = rests()
STAIRS = Stairs("stairs", width=900, headroom=2100, rise=180, run=250, steps=10)
SLOPE = np.arctan2(180, 250)


def test_along_the_slope_the_room_is_the_headroom_square_to_it() -> None:
    """A slat as thin as nothing lies along the slope: all the height square to it is left."""
    one = Flight(STAIRS, 10, box(100, 600, 1), UPRIGHT, 0.0)
    at = round((np.pi / 2 - SLOPE) / (2 * np.pi) * one.steps) % one.steps
    assert one.foot.in_second[at] == pytest.approx((2100 - LIFT_MM) * np.cos(SLOPE) / 2, abs=2)


def test_a_box_goes_up_and_every_step_of_it_is_free() -> None:
    one = box(600, 700, 1000)
    trial = max(flight_trials(STAIRS, 10, (None, None), one, UPRIGHT), key=lambda found: found.least)
    assert trial.fits
    proof = Proving(one, flight(STAIRS, 10)).along(trial.lay())
    assert proof.free
    poses = trial.lay()
    assert poses[-1].points(one.points)[:, 2].min() > 10 * 180  # it ends above the top step
    assert poses[0].points(one.points)[:, 2].min() == pytest.approx(LIFT_MM)


@pytest.mark.parametrize(("width", "fits"), [(890.0, True), (910.0, False)])
def test_a_stair_takes_what_is_narrower(width: float, fits: bool) -> None:
    assert any(found.fits for found in flight_trials(STAIRS, 10, (None, None), box(width, 950, 500), UPRIGHT)) == fits


def test_a_tall_piece_does_not_go_up_upright_but_lying() -> None:
    tall = box(600, 500, 2050)
    assert not any(found.fits for found in flight_trials(STAIRS, 10, (None, None), tall, UPRIGHT))
    assert any(found.fits for found in flight_trials(STAIRS, 10, (None, None), tall, ON_BACK))


def test_a_landing_has_to_hold_what_is_set_down_on_it() -> None:
    walls = (None, 1000.0)
    assert any(found.fits for found in flight_trials(STAIRS, 5, walls, box(600, 990, 500), UPRIGHT))
    longer = box(950, 1010, 500)  # too wide to go up the other way
    assert not any(found.fits for found in flight_trials(STAIRS, 5, walls, longer, UPRIGHT))


def test_a_turn_on_a_landing_hangs_out_only_where_there_is_room() -> None:
    landing = Landing(length=900, width=900, turn=np.pi / 2, after=5)
    short, long = box(600, 500, 700), box(1150, 400, 700)
    trial = landing_trial(STAIRS, landing, short, UPRIGHT)
    assert trial.fits
    assert Proving(short, landing_blocks(STAIRS, landing)).along(trial.lay()).free
    assert landing_trial(STAIRS, landing, long, UPRIGHT).above < trial.above - 100


def test_a_stair_that_turns_back_takes_what_stands_on_its_landing() -> None:
    landing = Landing(length=1000, width=1900, turn=np.pi, after=5, gap=100)
    trial = across_trial(STAIRS, landing, box(800, 900, 900), UPRIGHT)
    assert trial.side == pytest.approx(50)
    assert Proving(box(800, 900, 900), landing_blocks(STAIRS, landing)).along(trial.lay()).free
