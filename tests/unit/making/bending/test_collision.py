from __future__ import annotations

import math

import numpy as np
import pytest

from fitwright.making.bending.collision import bent_part, collisions
from fitwright.making.bending.table import Bend, BendTable
from fitwright.shop import Bender

RIGHT = math.pi / 2
OD = 30.0


def table(*legs: float, rotations: tuple[float, ...] = (), angles: tuple[float, ...] = ()) -> BendTable:
    """Right-angled bends (unless told) of 100 mm radius with these straights."""
    count = len(legs) - 1
    turns = (0.0, *rotations, *([0.0] * (count - 1 - len(rotations))))
    sizes = (*angles, *([RIGHT] * (count - len(angles))))
    return BendTable(tuple(Bend(s, r, a, 100.0) for s, r, a in zip(legs[:-1], turns, sizes, strict=True)), legs[-1])


def whats(made: BendTable, bender: Bender | None = None, closed: bool = False) -> list[tuple[int, str]]:
    angles = tuple(bend.angle for bend in made.bends)
    return [(hit.step, hit.what) for hit in collisions(made, angles, OD, bender, closed)]


def test_a_hoop_clears_die_and_tube() -> None:
    assert whats(table(600, 300, 600)) == []


@pytest.mark.parametrize(("rotation", "up"), [(RIGHT, True), (-RIGHT, False)])
def test_a_rotation_stands_the_bent_leg_up_or_hangs_it_down(rotation: float, up: bool) -> None:
    points = bent_part(table(500, 200, 300, rotations=(rotation,)), 1)
    reach = points[:, 2].max() if up else -points[:, 2].min()
    assert reach == pytest.approx(600)
    assert abs(points[:, 1]).max() == pytest.approx(0, abs=1e-9)


def test_a_hanging_leg_meets_the_floor_of_a_low_bender() -> None:
    hanging = table(500, 200, 300, rotations=(-RIGHT,))
    assert whats(hanging, Bender("high", height=700)) == []
    assert whats(hanging, Bender("low", height=500)) == [(2, "the bent end reaches 115 mm below the floor")]
    assert whats(hanging.mirrored(), Bender("low", height=500)) == []


def test_a_spiral_runs_into_the_tube_still_to_be_bent() -> None:
    """Third bend of a square spiral: the first leg comes round across the tube that is fed."""
    hits = whats(table(700, 60, 60, 900))
    assert hits
    assert hits[0][0] == 3
    assert "still to be bent" in hits[0][1] or "die" in hits[0][1]


def test_a_closed_loop_may_close() -> None:
    loop = table(150, 300, 300, 300, 150)
    assert whats(loop, closed=True) == []
    assert whats(table(190, 300, 300, 300, 150)) != []


def test_a_box_beside_the_tube_is_met_while_swinging() -> None:
    behind = Bender("wall", body=((-900, 400, -50), (-300, 900, 50)))
    hits = whats(table(600, 300, 600), behind)
    assert [(step, what.split(" when")[0]) for step, what in hits] == [(2, "the bent end meets the machine")]
    assert whats(table(600, 300, 600), Bender("far", body=((-900, 1400, -50), (-300, 1900, 50)))) == []


def test_a_tight_half_turn_lies_across_the_die() -> None:
    made = table(400, 20, 400, angles=(math.radians(260),))
    assert (2, "the bent end lies across the die") in whats(made)


def test_the_swing_keeps_the_distance_from_the_centre_of_the_die() -> None:
    points = bent_part(table(600, 300, 600), 1)
    assert points[0] == pytest.approx([0, 0, 0])
    assert np.linalg.norm(np.diff(points, axis=0), axis=1).max() < 20
