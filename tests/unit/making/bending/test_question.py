from __future__ import annotations

import json
import math

import pytest

from fitwright.making.bending import BendError, bend_as_json, bend_from_legs, bend_from_points
from fitwright.piece.path import BendOverlap
from fitwright.shop import default_shop
from fitwright.stock import parse_stock
from fitwright.units import Style

RIGHT = math.pi / 2
POINTS = [[0, 0, 0], [300, 0, 0], [300, 400, 0], [300, 400, 250]]


def test_legs_and_points_are_the_same_question() -> None:
    by_points = bend_from_points(POINTS, 75)
    by_legs = bend_from_legs([300, 400, 250], [RIGHT, RIGHT], [RIGHT], 75)
    assert by_legs.developed == pytest.approx(by_points.developed)
    assert [step.rotation for step in by_legs.steps] == pytest.approx([step.rotation for step in by_points.steps])


def test_a_radius_for_each_corner() -> None:
    sheet = bend_from_points(POINTS, [75, 50])
    assert [step.radius for step in sheet.steps] == [75, 50]
    assert sheet.table.straights == pytest.approx((225, 275, 200))


def test_json_has_the_promised_keys() -> None:
    data = json.loads(json.dumps(bend_as_json(bend_from_points(POINTS, 75))))
    assert data["blank_length_mm"] == data["developed_length_mm"] == pytest.approx(885.619, abs=1e-3)
    first, second = data["steps"]
    assert (first["mark_mm"], first["straight_before_mm"]) == pytest.approx((225, 225))
    assert (second["rotation_deg"], second["angle_deg"], second["command_angle_deg"]) == pytest.approx((90, 90, 90))
    assert first["radius_mm"] == 75
    assert first["die"] is None


def test_json_with_a_shop_has_overbend_and_die() -> None:
    sheet = bend_from_points(POINTS, 100, stock=parse_stock("round tube 32 x 2"), shop=default_shop("mm"))
    step = bend_as_json(sheet)["steps"][0]
    assert step["die"] == "32 x 100"
    assert step["command_angle_deg"] > 90
    assert step["command_spread_deg"] > 0


@pytest.mark.parametrize(
    ("points", "radius", "said"),
    [
        (POINTS, [75], "2 corners and 1 bend radii"),
        (POINTS, 0, "more than 0, got 0.0 mm"),
        (POINTS, float("nan"), "more than 0, got nan"),
        ([[0, 0], [1, 1]], 10, "three numbers"),
        ([[0, 0, 0], [float("inf"), 0, 0], [0, 1, 1]], 10, "three numbers"),
        ([[0, 0, 0], [500, 0, 0]], 10, "straight"),
    ],
)
def test_points_that_are_no_path(points: list[list[float]], radius: float | list[float], said: str) -> None:
    with pytest.raises(BendError, match=said):
        bend_from_points(points, radius)


def test_a_leg_too_short_for_its_bends() -> None:
    with pytest.raises(BendOverlap, match="lengthen the leg by"):
        bend_from_points([[0, 0, 0], [300, 0, 0], [300, 100, 0], [300, 100, 250]], 75)
    with pytest.raises(BendError, match=r"leg 2 is 100.0 mm and its bends take 150.0 mm of it: lengthen it by 50.0 mm"):
        bend_from_legs([300, 100, 250], [RIGHT, RIGHT], [0], 75)


@pytest.mark.parametrize(
    ("legs", "angles", "rotations", "radius", "said"),
    [
        ([300, 300], [RIGHT, RIGHT], [0], 50, "2 angles need 3 legs"),
        ([300], [], [], 50, "there is no angle, so nothing to bend"),
        ([300, 300, 300], [RIGHT, RIGHT], [0, 1], 50, "1 rotations between them, got 2"),
        ([300, 300], [RIGHT], [], [50, 60], "1 bends and 2 bend radii"),
        ([300, 300], [math.pi], [], 50, "less than 180"),
        ([300, 300], [RIGHT], [], 0, "radius of 0.0 mm"),
    ],
)
def test_legs_that_do_not_agree(
    legs: list[float], angles: list[float], rotations: list[float], radius: float | list[float], said: str
) -> None:
    with pytest.raises(BendError, match=said):
        bend_from_legs(legs, angles, rotations, radius)


@pytest.mark.parametrize(
    ("stock", "radius", "said"),
    [
        ("lumber 2x4", 100.0, "is not metal: a bender takes tube"),
        (
            "round tube 1 1/8 x 14 ga",
            10.0,
            r"lies within round tube 1 1/8 x 14 ga itself: it has to be more than 14.5 mm",
        ),
    ],
)
def test_what_no_bender_bends_is_refused(stock: str, radius: float, said: str) -> None:
    with pytest.raises(BendError, match=said):
        bend_from_points([[0, 0, 0], [0, 0, 500], [500, 0, 500]], radius, stock=parse_stock(stock))


def test_a_leg_too_short_is_told_in_the_unit_asked_in() -> None:
    with pytest.raises(BendOverlap, match=r'is 3" long and its bends take 4" of it: lengthen the leg by 1"'):
        bend_from_points([[0, 0, 0], [0, 0, 76.2], [76.2, 0, 76.2]], 101.6, style=Style.inch())


@pytest.mark.parametrize(
    ("legs", "radius", "said"),
    [
        ([863.6, 406.4, 863.6], 228.6, r'leg 2 is 16" and its bends take 18" of it: lengthen it by 2"'),
        ([863.6, 406.4, 863.6], -76.2, r'bend 1 has a radius of -3"'),
        ([float("inf"), 406.4, 863.6], 76.2, "leg 1 is inf"),
    ],
)
def test_what_is_wrong_with_legs_is_told_in_the_unit_asked_in(legs: list[float], radius: float, said: str) -> None:
    with pytest.raises(BendError, match=said):
        bend_from_legs(legs, [RIGHT, RIGHT], radius=radius, style=Style.inch())


def test_a_radius_that_is_none_is_told_in_the_unit_asked_in() -> None:
    with pytest.raises(BendError, match=r'more than 0, got -3"'):
        bend_from_points(POINTS, -76.2, style=Style.inch())
