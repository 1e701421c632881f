"""Findings of the route: what holds, what is tight, what takes parts off, what fails."""

from __future__ import annotations

from dataclasses import replace

import pytest

from fitwright.checks.carrying import carrying_findings
from fitwright.checks.route import route_findings
from fitwright.findings import Finding, Verdict
from fitwright.job.obstacles import Door, Lift, Obstacle
from fitwright.place.route import carries, find_route
from tests.demos import NAMES, assessed

RACK = assessed("drying-rack")
SWEPT = float(RACK.piece.envelope.size[1])


def found(*route: Obstacle) -> list[Finding]:
    way = find_route(route, RACK.piece)
    return route_findings(RACK.job, way)


@pytest.mark.parametrize(
    ("width", "verdict"),
    [
        (SWEPT + 80, Verdict.HOLDS),
        (SWEPT + 20, Verdict.TIGHT),  # through, but knuckles
        (SWEPT - 20, Verdict.TIGHT),  # with casters off
        (SWEPT - 200, Verdict.FAILS),
    ],
)
def test_a_door_by_its_width(width: float, verdict: Verdict) -> None:
    (one,) = found(Door("door", width=width, height=2000))
    assert one.verdict is verdict
    assert one.margin == pytest.approx((width - SWEPT) / 2 if width > SWEPT else width - SWEPT, abs=0.5)


def test_what_helps_is_said() -> None:
    (one,) = found(Door("door", width=SWEPT - 20, height=2000))
    assert "casters off" in one.advice


def test_no_route_has_no_finding() -> None:
    assert route_findings(RACK.job, None) == []


def test_a_lift_is_held_against_its_rated_load() -> None:
    lift = Lift("lift", door_width=900, door_height=2000, width=1100, depth=1400, height=2200, load=100.0)
    verdicts = {}
    for load in (None, 100.0, 630.0):
        way = find_route((replace(lift, load=load),), RACK.piece)
        assert way is not None
        (one,) = carrying_findings(RACK.job, carries(way, RACK.piece))
        verdicts[load] = one.verdict
    assert verdicts == {None: Verdict.NEEDS_INPUT, 100.0: Verdict.FAILS, 630.0: Verdict.HOLDS}


def test_a_car_that_cannot_bear_the_piece_alone_is_told_so() -> None:
    lift = Lift("lift", door_width=900, door_height=2000, width=1100, depth=1400, height=2200)
    advice = []
    for load in (10.0, RACK.piece.mass + 10):
        way = find_route((replace(lift, load=load),), RACK.piece)
        assert way is not None
        (one,) = carrying_findings(RACK.job, carries(way, RACK.piece))
        advice.append(one.advice)
    assert advice == ["too heavy for the car: take parts off, or another way up", "let it go up alone"]


@pytest.mark.parametrize(
    ("height", "verdict"), [(2200.0, Verdict.HOLDS), (1950.0, Verdict.NEEDS_INPUT), (None, Verdict.NEEDS_INPUT)]
)
def test_height_to_stand_it_up_is_asked_for_where_it_comes_in_lying(height: float | None, verdict: Verdict) -> None:
    way = find_route((Door("door", width=1000, height=1000),), RACK.piece, height=height)
    one = route_findings(RACK.job, way)[-1]
    assert (one.subject, one.check, one.verdict) == ("its place", "height to stand it up", verdict)
    if verdict is Verdict.NEEDS_INPUT:
        assert "a corridor as high as the room" in one.advice


def test_the_demos_get_there() -> None:
    for name in NAMES:
        told = route_findings(assessed(name).job, assessed(name).route)
        assert told
        assert {one.verdict for one in told} == {Verdict.HOLDS}
