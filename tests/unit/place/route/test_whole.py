"""Whole routes: the answer, what is turned over, what helps, stopping."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from fitwright.job.obstacles import Corridor, Door, Landing, Lift, Obstacle, Stairs
from fitwright.piece import Piece
from fitwright.place.route import Answer, find_route
from fitwright.place.route.bounds import ball_inside
from fitwright.place.route.legs import legs
from fitwright.place.route.search import BALL
from tests.demos import assessed
from tests.unit.place.route.boxes import box


@pytest.fixture(scope="module")
def rack() -> Piece:
    return assessed("drying-rack").piece


def answers(piece: Piece, *route: Obstacle) -> list[Answer]:
    found = find_route(route, piece)
    assert found is not None
    return [passage.answer for passage in found.passages]


def test_no_route_has_no_answer(rack: Piece) -> None:
    assert find_route((), rack) is None


def test_it_rolls_through_a_door_wide_and_high_enough(rack: Piece) -> None:
    found = find_route((Door("door", width=900, height=2000),), rack)
    assert found is not None
    passage = found.passages[0]
    assert (found.answer, passage.rolled) == (Answer.PASSES, True)
    assert passage.clearance == pytest.approx((900 - rack.envelope.size[1]) / 2, abs=0.5)
    assert passage.missing == 0


def test_what_is_narrower_than_a_ball_inside_is_never_got_through(rack: Piece) -> None:
    found = find_route((Door("slit", width=400, height=2000),), rack)
    assert found is not None
    assert found.answer is Answer.NO
    assert found.passages[0].proof == BALL
    assert found.passages[0].missing > 200
    assert not any(easing.passes for easing in found.easings)


def test_a_ball_in_a_box_is_its_least_side() -> None:
    assert ball_inside(box(300, 500, 900)) == pytest.approx(300)


def test_casters_off_is_found_where_it_helps(rack: Piece) -> None:
    swept, bare = rack.envelope.size[1], 647.7
    found = find_route((Door("door", width=(swept + bare) / 2, height=2000),), rack)
    assert found is not None
    assert found.answer is Answer.NO
    helped = next(easing for easing in found.easings if easing.passes)
    assert helped.name == "casters off"
    assert found.shown == helped.routes


def test_in_two_halves_is_the_last_resort() -> None:
    bench = assessed("workbench").piece
    lift = Lift("lift", door_width=800, door_height=2000, width=1000, depth=1100, height=1300, load=400.0)
    found = find_route((lift,), bench)
    assert found is not None
    helped = [easing for easing in found.easings if easing.passes]
    assert "two halves" in helped[0].name
    assert len(found.shown) == 2


def test_it_is_turned_over_only_where_there_is_height(rack: Piece) -> None:
    """Lying under a low beam, then upright again: the corridors beside the beam are too low to stand it up in."""
    low = Door("beam", width=1000, height=1000)
    narrow = Lift("lift", door_width=960, door_height=2100, width=960, depth=960, height=2200)
    for high, fits in ((2200.0, True), (1950.0, False)):
        hall = Corridor("hall", width=1200, height=high, length=3000)
        found = find_route((low, hall, narrow), rack)
        assert found is not None
        assert any(turn.fits == fits for turn in found.turnovers)
        assert (found.answer is Answer.PASSES) == fits


LOW = Door("low door", width=1000, height=1000)


@pytest.mark.parametrize(
    ("opening", "room", "has", "answer"),
    [
        (None, None, None, Answer.PASSES),  # nothing says how high the room is
        (2200.0, None, 2200.0, Answer.PASSES),
        (1950.0, None, None, Answer.PASSES),  # the room may be higher than the opening
        (1950.0, 2200.0, 2200.0, Answer.PASSES),
        (1950.0, 1960.0, 1960.0, Answer.NO),
    ],
)
def test_what_comes_in_lying_is_stood_up_in_its_place(
    rack: Piece, opening: float | None, room: float | None, has: float | None, answer: Answer
) -> None:
    """The diagonal of a rack of 74 by 25 1/2 in is 78 1/4 in, 1988 mm."""
    way: tuple[Obstacle, ...] = (LOW,)
    if room is not None:
        way = (LOW, Corridor("room", width=1200, height=room, length=3000))
    found = find_route(way, rack, height=opening)
    assert found is not None
    (turn,) = found.turnovers
    assert (turn.start.rest, turn.finish.words) == ("on its back", "upright")
    assert turn.needs == pytest.approx(1988, abs=25)
    assert (turn.has, found.answer) == (has, answer)
    if room is None:
        assert (turn.where(found.legs), turn.when(found.legs)) == ("its place", "in its place")


def test_what_comes_in_upright_is_not_turned(rack: Piece) -> None:
    found = find_route((Door("door", width=900, height=2000),), rack, height=1950)
    assert found is not None
    assert found.turnovers == ()


def test_a_stair_with_a_landing_is_three_legs() -> None:
    landing = Landing(length=1100, width=1100, turn=math.pi / 2, after=6)
    stairs = Stairs("stairs", width=1000, headroom=2300, rise=180, run=270, steps=12, landing=landing)
    assert [leg.kind for leg in legs((stairs,))] == ["stairs", "landing", "stairs"]
    assert [leg.kind for leg in legs((replace(stairs, landing=replace(landing, turn=0.0)),))] == ["stairs", "stairs"]


def test_stopping_keeps_what_was_found(rack: Piece) -> None:
    told: list[float] = []

    def stop(_: str, share: float) -> bool:
        told.append(share)
        return len(told) < 2

    found = find_route(tuple(Corridor(str(k), width=900, height=2400, length=1000) for k in range(4)), rack, stop)
    assert found is not None
    assert found.stopped
    assert found.answer is not Answer.PASSES
    assert told == sorted(told)


def test_the_same_route_has_the_same_answer(rack: Piece) -> None:
    route = (Door("door", width=800, height=1800, before=2000.0), Corridor("hall", width=850, height=2300, length=2000))
    one, other = find_route(route, rack), find_route(route, rack)
    assert one is not None
    assert other is not None
    same = replace(one, seconds=0.0)
    assert [p.spot.room for p in same.passages] == [p.spot.room for p in other.passages]
    assert [len(p.poses) for p in one.passages] == [len(p.poses) for p in other.passages]
