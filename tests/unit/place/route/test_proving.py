"""Distances, and ways that are not free although their ends are."""

from __future__ import annotations

import numpy as np
import pytest

from fitwright.place.route.model import Bulk, Lump, Pose
from fitwright.place.route.proving import Proving, between
from fitwright.place.route.stances import about
from fitwright.place.route.world import box as block
from tests.unit.place.route.boxes import box


def at(x: float, y: float, heading: float = 0.0) -> Pose:
    return Pose(about(2, heading), np.array([x, y, 0.0]))


def test_a_thin_wall_between_two_free_places_is_found() -> None:
    wall = block("a wall", (0.0, 500.0, 0.0), (1000.0, 501.0, 1000.0))
    proof = Proving(box(100, 100, 100), [wall]).along([at(200, 0), at(200, 900)])
    assert not proof.free


def test_the_least_distance_and_where() -> None:
    wall = block("a wall", (0.0, 500.0, 0.0), (1000.0, 600.0, 1000.0))
    proof = Proving(box(100, 100, 100), [wall]).along([at(0, 0), at(0, 390), at(0, 0)])
    assert (proof.free, proof.at, proof.what) == (True, 1, "a wall")
    assert proof.least == pytest.approx(10)


def test_a_frame_may_reach_round_what_its_hull_would_hit() -> None:
    """Two posts on either side of a wall's end: the hull is in the way, the posts are not."""
    posts = tuple(Lump(box(40, 40, 900).points + np.array([x, 0.0, 0.0]), 5.0, "post") for x in (0.0, 960.0))
    frame = Bulk("a frame", posts, 10.0, np.array([500.0, 20.0, 450.0]))
    wall = block("a wall", (400.0, -10.0, 0.0), (600.0, 500.0, 1000.0))
    found = Proving(frame, [wall])
    assert found.distance(at(0, 0))[0] == pytest.approx(360)
    points = found.nearest(at(0, 0))
    assert np.linalg.norm(points[0] - points[1]) == pytest.approx(360)


def test_half_way_is_half_turned() -> None:
    middle = between(at(0, 0), at(100, 0, np.pi / 2), 0.5)
    assert middle.turn == pytest.approx(about(2, np.pi / 4))
    assert middle.at == pytest.approx([50, 0, 0])
