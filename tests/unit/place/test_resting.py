"""Feet on floors that are not level, by hand."""

from __future__ import annotations

import numpy as np
import pytest

from fitwright.job import parse_job
from fitwright.piece import Piece, build
from fitwright.place.resting import Stance, feet_of, floor_heights, stance

TABLE = """
job: {{name: trial, unit: mm}}
stock: {{leg: square bar 40}}
parts:
  leg: {{stock: leg, path: [[20, 20, {low}], [20, 20, 700]], ends: free, repeat: {{x: [0, 560], y: [0, 360]}}}}
  {foot}
"""
FOOT = "foot: {foot: {height: 30, diameter: 40}, at: [20, 20, 30], repeat: {x: [0, 560], y: [0, 360]}}"
CASTER = "foot: {caster: {height: 30, wheel: 25, width: 10}, at: [20, 20, 30], repeat: {x: [0, 560], y: [0, 360]}}"
# the feet stand at (20, 20), (20, 380), (580, 20), (580, 380)
HERE = np.zeros(2)


def table(foot: str = "", low: float = 0.0) -> Piece:
    return build(parse_job(TABLE.format(foot=foot, low=low)))


def at_feet(*heights: float) -> list[tuple[tuple[float, float], float]]:
    return list(zip([(20.0, 20.0), (20.0, 380.0), (580.0, 20.0), (580.0, 380.0)], heights, strict=True))


def stood(*heights: float, foot: str = FOOT, low: float = 30.0) -> Stance:
    found = stance(table(foot, low), at_feet(*heights), HERE)
    assert found is not None
    return found


def test_feet_are_hardware_or_else_the_ends_on_the_floor() -> None:
    assert [foot.kind for foot in feet_of(table(FOOT, 30.0))] == ["foot"] * 4
    bare = feet_of(table())
    assert [foot.kind for foot in bare] == ["part"] * 4
    assert sorted(tuple(foot.at[:2].round(6)) for foot in bare) == [(20, 20), (20, 380), (580, 20), (580, 380)]


def test_a_level_floor_needs_nothing() -> None:
    found = stood(5.0, 5.0, 5.0, 5.0)
    assert found.touching == 4
    assert found.rock == pytest.approx(0.0, abs=1e-9)
    assert found.shims == pytest.approx(np.zeros(4), abs=1e-9)
    assert found.raised == pytest.approx(5.0)


def test_a_plane_that_slopes_is_stood_on_by_all_four() -> None:
    """Up by 5.6 to the right over 560: no rock, a tilt of 1 in 100, shims under the two on the left."""
    found = stood(0.0, 0.0, 5.6, 5.6)
    assert found.touching == 4
    assert found.rock == pytest.approx(0.0, abs=1e-9)
    assert found.slope == pytest.approx([0.01, 0.0])
    assert found.shims == pytest.approx([5.6, 5.6, 0.0, 0.0])


def test_one_low_corner_leaves_a_foot_in_the_air() -> None:
    """Of four feet in a rectangle the fourth is off by the difference of the sums of its two diagonals."""
    found = stood(0.0, 0.0, 0.0, -4.0)
    assert found.touching == 3
    assert found.rock == pytest.approx(4.0)
    assert found.open.max() == pytest.approx(4.0)
    assert found.shims == pytest.approx([0.0, 0.0, 0.0, 4.0])


def test_a_twisted_floor_rocks_by_its_twist() -> None:
    found = stood(1.0, -1.0, -1.0, 1.0)
    # the sums of the diagonals are 2 and -2: whichever three carry, the fourth is off by 4
    assert found.rock == pytest.approx(4.0)
    assert found.open.max() == pytest.approx(4.0)


def test_casters_lean_with_the_floor_and_feet_are_levelled() -> None:
    casters, feet = stood(0.0, 0.0, 5.6, 5.6, foot=CASTER), stood(0.0, 0.0, 5.6, 5.6)
    up = np.array([0.0, 0.0, 1.0])
    assert casters.rolls
    assert casters.turn @ up == pytest.approx(np.array([-0.01, 0.0, 1.0]) / np.hypot(1.0, 0.01))
    assert np.degrees(casters.tilt) == pytest.approx(0.573, abs=0.001)
    assert feet.turn == pytest.approx(np.eye(3))


def test_two_feet_are_not_told() -> None:
    two = build(
        parse_job("""
job: {name: trial, unit: mm}
stock: {leg: square bar 40}
parts:
  leg: {stock: leg, path: [[20, 20, 0], [20, 20, 700]], ends: free, repeat: {x: [0, 560]}}
""")
    )
    assert stance(two, at_feet(0.0, 0.0, 0.0, 0.0), HERE) is None
    assert stance(table(), [], HERE) is None


def test_the_floor_goes_through_every_place_measured() -> None:
    levels = [
        ((0.0, 0.0), 1.0),
        ((900.0, 0.0), -2.0),
        ((0.0, 500.0), 3.0),
        ((900.0, 500.0), 0.5),
        ((450.0, 200.0), 4.0),
    ]
    places = np.array([place for place, _ in levels])
    assert floor_heights(levels, places) == pytest.approx([height for _, height in levels], abs=1e-6)


def test_two_places_make_a_slope_and_one_a_level() -> None:
    two = [((0.0, 0.0), 0.0), ((100.0, 0.0), 2.0)]
    assert floor_heights(two, np.array([[50.0, 0.0], [100.0, 70.0]])) == pytest.approx([1.0, 2.0], abs=1e-6)
    assert floor_heights([((3.0, 4.0), 7.0)], np.array([[50.0, 9.0]])) == pytest.approx([7.0])
