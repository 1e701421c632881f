from __future__ import annotations

import numpy as np
import pytest

from fitwright.making.coping.strip import AngleStrip, BoxStrip, RoundStrip, Strip, strip_of
from fitwright.stock import parse_stock

STOCKS = (
    "round tube 32 x 2",
    "round bar 10",
    "square tube 40 x 40 x 2",
    "rect tube 60 x 40 x 4",
    "flat 25 x 5",
    "angle 40 x 30 x 4",
)


def _strip(text: str) -> Strip:
    return strip_of(parse_stock(text).section)


@pytest.mark.parametrize("text", STOCKS)
def test_places_are_on_the_outline_and_a_step_apart(text: str) -> None:
    section, strip = parse_stock(text).section, _strip(text)
    s = np.linspace(0.0, strip.girth, 20001)
    outer = strip.outer(s)
    assert np.abs(section.distance(outer)).max() < 1e-9
    steps = np.linalg.norm(np.diff(outer, axis=0), axis=1)
    # a chord that cuts a corner is shorter than the way round it
    assert steps.sum() == pytest.approx(strip.girth, rel=1e-4)
    assert steps.max() == pytest.approx(s[1], rel=1e-6)


@pytest.mark.parametrize("text", STOCKS[:4])
def test_the_inside_is_the_bore_straight_through_the_wall(text: str) -> None:
    section, strip = parse_stock(text).section, _strip(text)
    s = np.linspace(0.0, strip.girth, 500)
    through = np.linalg.norm(strip.inner(s) - strip.outer(s), axis=1)
    assert through.min() == pytest.approx(strip.wall)
    if strip.wall:
        assert np.abs(section.distance(strip.inner(s)) + strip.wall).max() < 1e-9


def test_girths_by_hand() -> None:
    assert _strip("round tube 32 x 2").girth == pytest.approx(32 * np.pi)
    assert BoxStrip(60, 40, 0, 3).girth == 200
    assert BoxStrip(60, 40, 5, 3).girth == pytest.approx(200 - 40 + 10 * np.pi)
    assert _strip("angle 40 x 30 x 4").girth == 70


def test_sharp_cornered_box_has_its_folds_at_the_corners() -> None:
    box = BoxStrip(60, 40, 0, 3)
    assert box.folds == (20, 80, 120, 180)
    assert box.outer(np.array(box.folds)) == pytest.approx(np.array([[30, 20], [-30, 20], [-30, -20], [30, -20]]))
    assert box.middles == (0, 50, 100, 150)
    assert [box.side(s) for s in box.middles] == [40, 60, 40, 60]


def test_angle_folds_over_its_heel() -> None:
    strip = AngleStrip(40, 30, 4)
    assert strip.folds == (30,)
    assert strip.outer(np.array([0.0, 30.0, 70.0])).tolist() == [[0, 30], [0, 0], [40, 0]]
    assert strip.inner(np.array([10.0, 50.0])).tolist() == [[4, 20], [20, 4]]
    assert not strip.closed


def test_solid_bars_have_no_wall() -> None:
    bar = RoundStrip(5, 0)
    assert bar.wall == 0
    assert np.array_equal(bar.inner(np.array([3.0])), bar.outer(np.array([3.0])))
