"""Who carries what, held where."""

from __future__ import annotations

import numpy as np
import pytest

from fitwright.job.obstacles import Door, Stairs, Van
from fitwright.place.route import Carry, carries, find_route
from fitwright.place.route.bulk import whole
from fitwright.place.route.grips import FROM_END_MM, holds, shares
from fitwright.place.route.stances import rests
from tests.demos import assessed

RACK, RAIL = assessed("drying-rack").piece, assessed("coat-rail").piece
UPRIGHT, ON_BACK, _ = rests()


def carry(piece: object, obstacle: object) -> Carry:
    way = find_route((obstacle,), piece)  # type: ignore[arg-type]
    assert way is not None
    (one,) = carries(way, piece)  # type: ignore[arg-type]
    return one


def test_what_has_casters_rolls_through_a_door_and_is_carried_upstairs() -> None:
    door = carry(RACK, Door("door", width=1000, height=2000))
    assert (door.rolled, door.people, door.holds) == (True, 1, ())
    up = carry(RACK, Stairs("stairs", width=1100, headroom=2400, rise=170, run=280, steps=10))
    assert not up.rolled
    assert up.people is not None
    assert up.people >= 2
    assert any("below" in said for said in up.cautions)


def test_a_van_takes_more_people_than_the_level() -> None:
    level = carry(RAIL, Door("door", width=1000, height=2200))
    van = Van("van", door_width=1500, door_height=1800, length=3000, width=1700, height=1800, bed=650)
    loaded = carry(RAIL, van)
    assert level.limit is not None
    assert loaded.limit is not None
    assert loaded.limit < level.limit
    assert level.mass == loaded.mass == pytest.approx(RAIL.mass)


def test_hands_are_on_members_of_the_piece() -> None:
    for stance in rests():
        held = holds(RACK, whole(RACK), stance)
        assert {one.person for one in held} == {1, 2}
        for one in held:
            member = next(m for m in RACK.members if m.name == one.name)
            assert RACK.mark_of[one.name] == one.mark
            assert one.along >= FROM_END_MM
            box = member.path.vertices
            assert (one.at >= box.min(axis=0) - 1).all()
            assert (one.at <= box.max(axis=0) + 1).all()


def test_the_ends_share_the_weight_by_their_levers() -> None:
    bulk = whole(RACK)
    held = holds(RACK, bulk, ON_BACK)
    first, second = shares(held, bulk, ON_BACK)
    assert first + second == pytest.approx(1)
    level = ON_BACK.turn[1]  # lying on its back its height runs along y
    ends = [np.mean([one.at @ level for one in held if one.person == person]) for person in (1, 2)]
    assert first * ends[0] + second * ends[1] == pytest.approx(float(bulk.centre @ level))


def test_whoever_is_below_has_more_of_what_is_tall() -> None:
    bulk = whole(RACK)
    held = holds(RACK, bulk, UPRIGHT)
    level, tipped = shares(held, bulk, UPRIGHT), shares(held, bulk, UPRIGHT, np.radians(30))
    middle = float(np.mean([one.at[2] for one in held]))
    assert (tipped[0] > level[0]) == (float(bulk.centre[2]) > middle)
