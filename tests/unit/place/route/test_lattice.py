"""The lattice: what it finds where the exact answer for convex outlines says no."""

from __future__ import annotations

import numpy as np
import pytest

from fitwright.job.obstacles import Corner, Lift
from fitwright.place.route.convex import box_corners
from fitwright.place.route.corners import corner_trial
from fitwright.place.route.lattice import Lattice
from fitwright.place.route.legs import legs
from fitwright.place.route.model import Bulk, Lump
from fitwright.place.route.proving import Proving
from fitwright.place.route.searching import searched, shadow_parts
from fitwright.place.route.stances import rests
from fitwright.place.route.straight import into_trial
from tests.unit.place.route.boxes import box

UPRIGHT = rests()[0]


def ell() -> Bulk:
    """An L of arms 2000 and 900 long, 150 thick, 800 high, as a corner bench without its seat is."""
    arms = (box(2000, 150, 800).lumps[0], box(150, 900, 800).lumps[0])
    return Bulk(
        "a corner bench", tuple(Lump(arm.corners, 10.0, "arm") for arm in arms), 20.0, np.array([400, 400, 400.0])
    )


def test_the_room_beside_a_wall_is_its_distance() -> None:
    part, wall = box_corners((-50, -50), (50, 50)), box_corners((500, -1000), (600, 1000))
    lattice = Lattice((part,), (wall,), np.array([[0.0, 0.0], [200.0, 0.0]]), 100.0, 4)
    assert lattice.room[0, 0].tolist() == pytest.approx([450, 350, 250])


def test_no_way_where_a_wall_shuts_the_passage() -> None:
    part = box_corners((-50, -50), (50, 50))
    walls = (box_corners((-500, 400), (20, 420)), box_corners((60, 400), (500, 420)))
    lattice = Lattice((part,), walls, np.array([[-200.0, 0.0], [200.0, 800.0]]), 20.0, 8)
    along = lattice.extents(np.array([0.0, 1.0]))
    found = lattice.best(along[1] <= 400, along[0] >= 420)
    assert found is not None
    assert found.room == pytest.approx((40 - 100) / 2, abs=10)


def test_a_shadow_that_is_not_convex_keeps_its_arms() -> None:
    assert len(shadow_parts(ell(), UPRIGHT)) == 2
    assert len(shadow_parts(box(900, 500, 400), UPRIGHT)) == 1


def test_an_l_is_hooked_round_a_corner_that_its_outline_does_not_pass() -> None:
    corner = Corner("corner", first=1050.0, second=1050.0, turn=np.pi / 2, height=2400.0)
    assert not corner_trial(corner, ell(), UPRIGHT).fits
    (leg,) = legs((corner,))
    trial = searched(leg, ell(), UPRIGHT)
    assert trial is not None
    assert trial.fits
    assert Proving(ell(), leg.around()).along(trial.lay()).free


def test_it_is_turned_inside_a_lift_that_is_wider_than_deep() -> None:
    lift = Lift("lift", door_width=900, door_height=2100, width=1700, depth=1150, height=2200)
    long = box(1350, 450, 900)
    assert not into_trial(lift, long, UPRIGHT).fits
    (leg,) = legs((lift,))
    trial = searched(leg, long, UPRIGHT)
    assert trial is not None
    assert trial.fits
    assert Proving(long, leg.around()).along(trial.lay()).free
