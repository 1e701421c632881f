"""Openings out of square and out of plumb; worked out by hand."""

from __future__ import annotations

import numpy as np
import pytest

from fitwright.job.model import Measured, Opening, PlanSurvey, Skirting
from fitwright.place.walls import Walls, profile

HEIGHTS = np.array([0.0, 500.0, 1000.0, 2000.0])


def test_profile_is_straight_between_measurements_and_level_beyond() -> None:
    assert profile([(1000, 90), (0, 100)], np.array([-5, 0, 250, 1000, 1500])) == pytest.approx(
        [100, 100, 97.5, 90, 90]
    )


def test_several_widths_say_how_far_the_right_wall_is() -> None:
    walls = Walls(Opening(widths=((0, 800), (1000, 790), (2000, 810))), 1900)
    left, right = walls.sides(HEIGHTS)
    assert left == pytest.approx([0, 0, 0, 0])
    assert right == pytest.approx([800, 795, 790, 810])


def test_a_leaning_left_wall_takes_the_right_one_along() -> None:
    walls = Walls(Opening(widths=((0, 800), (2000, 780)), tops=((0, 2000),), lean={"left": 10}), 1900)
    left, right = walls.sides(HEIGHTS)
    assert left == pytest.approx([0, 2.5, 5, 10])
    # The widths were measured between the walls as they lean.
    assert right == pytest.approx([800, 797.5, 795, 790])


def test_a_lean_of_the_right_wall_alone_places_the_left_one() -> None:
    walls = Walls(Opening(widths=((0, 800), (2000, 780)), tops=((0, 2000),), lean={"right": 5}), 1900)
    left, right = walls.sides(HEIGHTS)
    assert right == pytest.approx([800, 798.75, 797.5, 795])
    assert right - left == pytest.approx([800, 795, 790, 780])


def test_one_width_and_two_leaning_walls() -> None:
    walls = Walls(Opening(widths=((0, 800),), tops=((0, 2000),), lean={"left": 8, "right": -4}), 1900)
    left, right = walls.sides(HEIGHTS)
    assert left == pytest.approx([0, 2, 4, 8])
    # A negative lean goes out of the opening.
    assert right == pytest.approx([800, 801, 802, 804])


def test_one_width_measured_half_way_up() -> None:
    walls = Walls(Opening(widths=((1000, 800),), tops=((0, 2000),), lean={"left": 8, "right": 4}), 1900)
    left, right = walls.sides(HEIGHTS)
    assert (right - left)[2] == pytest.approx(800)
    assert (right - left)[0] == pytest.approx(806)


def test_depth_at_several_heights_has_the_lean_in_it_already() -> None:
    several = Walls(Opening(depths=((0, 500), (2000, 480)), tops=((0, 2000),), lean={"back": 20}), 1900)
    assert several.back(HEIGHTS) == pytest.approx([500, 495, 490, 480])
    single = Walls(Opening(depths=((0, 500),), tops=((0, 2000),), lean={"back": 20}), 1900)
    assert single.back(HEIGHTS) == pytest.approx([500, 495, 490, 480])


def test_the_height_over_which_a_lean_was_measured() -> None:
    assert Walls(Opening(tops=((0, 2050), (800, 2040))), 1900).full == 2040
    assert Walls(Opening(widths=((0, 800), (1800, 790))), 1900).full == 1800
    assert Walls(Opening(widths=((0, 800),)), 1900).full == 1900


def test_walls_that_run_in_from_front_to_back() -> None:
    opening = Opening(
        widths=((0, 800),), depths=((0, 400),), measures=(Measured("width", 0, 800), Measured("depth", 0, 400)),
        skew={"left": 8.0, "right": -4.0, "back": 6.0},
    )  # fmt: skip
    walls = Walls(opening, 1900)
    left, right = walls.sides(np.zeros(3), np.array([0.0, 200.0, 400.0]))
    assert left == pytest.approx([0, 4, 8])
    assert right == pytest.approx([800, 802, 804])
    assert walls.back(np.zeros(2), np.array([0.0, 800.0])) == pytest.approx([400, 394])


def test_a_width_taken_inside_counts_where_it_was_taken() -> None:
    """800 at 400 from the front, where the left wall has run in by 8: in front it is 808 wide."""
    opening = Opening(
        widths=((0, 800),), depths=((0, 400),), skew={"left": 8.0},
        measures=(Measured("width", 0, 800, station=400.0), Measured("depth", 0, 400)),
    )  # fmt: skip
    left, right = Walls(opening, 1900).sides(np.zeros(2), np.array([0.0, 400.0]))
    assert right - left == pytest.approx([808, 800])


def test_sizes_at_several_stations_and_heights() -> None:
    sizes = [(0, 0, 800), (1000, 0, 790), (0, 400, 780), (1000, 400, 770)]
    measures = tuple(Measured("width", at, size, station) for at, station, size in sizes)
    walls = Walls(Opening(widths=((0, 780), (1000, 770)), measures=measures), 1900)
    _, right = walls.sides(np.array([0.0, 500.0, 500.0, 0.0]), np.array([200.0, 100.0, 400.0, 900.0]))
    assert right == pytest.approx([790, 790, 775, 780])
    assert walls.stations == pytest.approx([0, 400])


def test_skirting_stands_out_as_high_as_it_is() -> None:
    walls = Walls(Opening(widths=((0, 800),)), 1900, Skirting(100.0, 15.0, ("left",)))
    assert walls.board("left", np.array([0.0, 100.0, 100.1])) == pytest.approx([15, 15, 0])
    assert walls.board("right", np.array([0.0])) == pytest.approx([0])
    assert 100.0 in walls.heights


def test_a_plan_alone_is_wide_and_deep() -> None:
    across = (800**2 + 400**2) ** 0.5
    lengths = {"front": 800.0, "back": 800.0, "left": 400.0, "right": 400.0,
               "front left to back right": across, "front right to back left": across}  # fmt: skip
    walls = Walls(Opening(plan=PlanSurvey(lengths)), 1900)
    assert walls.sides(np.zeros(1))[1] == pytest.approx([800])
    assert walls.back(np.zeros(1)) == pytest.approx([400])
