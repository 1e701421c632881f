"""The exact box round a member against a dense cloud of its surface, and against figures worked out by hand."""

from __future__ import annotations

from math import pi, sqrt

import numpy as np
import pytest

from fitwright.piece.body import Body
from fitwright.piece.extent import Cuts, member_box
from fitwright.piece.model import Plane
from fitwright.piece.path import Path, straight_path
from fitwright.piece.trim import axis_plane, stops
from fitwright.stock import Angle, Flat, RectTube, RoundTube, Section

NO_CUT: Cuts = ((), ())


def frame_for(direction: np.ndarray) -> np.ndarray:
    u = np.cross(direction, [0.3, -0.5, 0.8])
    u /= np.linalg.norm(u)
    return np.array([u, np.cross(direction, u)])


@pytest.mark.parametrize("section", [RoundTube(25, 2), RectTube(40, 30, 2, 4), Flat(30, 5), Angle(30, 25, 3, 3, 1.5)])
def test_box_of_a_bent_member_in_space(section: Section) -> None:
    points = np.array([[0, 0, 0], [200, 30, 10], [260, 220, 90], [100, 300, 260]], dtype=float)
    path = Path(points, np.array([0, 70, 60, 0.0]))
    body = Body(path, frame_for(path.directions[0]), section)
    low, high = member_box(body, (NO_CUT, NO_CUT))
    rings = [
        body.place(k, np.linspace(0, 1, 400), section.outline(720)).reshape(-1, 3) for k in range(len(path.segments))
    ]
    cloud = np.vstack(rings)
    # The cloud stays inside, by no more than its own spacing.
    assert low == pytest.approx(cloud.min(axis=0), abs=0.005)
    assert high == pytest.approx(cloud.max(axis=0), abs=0.005)
    assert (cloud.min(axis=0) >= low - 2e-3).all()
    assert (cloud.max(axis=0) <= high + 2e-3).all()


def test_slanted_straight_round() -> None:
    body = Body(
        straight_path(np.zeros(3), np.array([300.0, 0, 400])), np.array([[0.8, 0, -0.6], [0, 1, 0]]), RoundTube(50, 2)
    )
    low, high = member_box(body, (NO_CUT, NO_CUT))
    assert low == pytest.approx([-20, -25, -15])
    assert high == pytest.approx([320, 25, 415])


def test_slanted_round_cut_level() -> None:
    body = Body(
        straight_path(np.zeros(3), np.array([300.0, 0, 400])), np.array([[0.8, 0, -0.6], [0, 1, 0]]), RoundTube(50, 2)
    )
    floor: Cuts = ((Plane(np.zeros(3), np.array([0, 0, -1.0])),), ())
    low, high = member_box(body, (floor, NO_CUT))
    # The level ellipse is 25 / 0.8 long to either side.
    assert low == pytest.approx([-31.25, -25, 0])
    assert high == pytest.approx([320, 25, 415])


def test_the_tip_of_a_cope() -> None:
    """A branch of 25 on a run of 40 at 45 degrees: its ears lie beside the run, its tip ahead of the axis."""
    run = Body(
        straight_path(np.array([-200.0, 0, 0]), np.array([200.0, 0, 0])),
        np.array([[0, 1.0, 0], [0, 0, 1.0]]),
        RoundTube(40, 2),
    )
    down = np.array([1.0, 0, -1.0]) / sqrt(2)
    branch = Body(
        straight_path(-200 * down, np.zeros(3)), np.array([np.cross([0, 1.0, 0], down), [0, 1.0, 0]]), RoundTube(25, 2)
    )
    cuts: Cuts = ((axis_plane(branch, 1, run),), (run,))
    low, high = member_box(branch, (NO_CUT, cuts))
    turn = np.linspace(0, 2 * pi, 200001)
    outline = 12.5 * np.column_stack([np.cos(turn), np.sin(turn)])
    tips = outline @ branch.frame + stops(branch, 1, outline, *cuts)[:, None] * down
    assert high[0] == pytest.approx(tips[:, 0].max(), abs=1e-3)
    assert low[2] == pytest.approx(tips[:, 2].min(), abs=1e-3)
    # At its sides the branch reaches down to sqrt(20^2 - 12.5^2) above the axis plane.
    assert low[2] == pytest.approx(sqrt(20**2 - 12.5**2), abs=0.01)


def test_closed_loop() -> None:
    path = Path(
        np.array([[0, 0, 0], [200, 0, 0], [200, 100, 0], [0, 100, 0]], dtype=float), np.full(4, 30.0), closed=True
    )
    body = Body(path, np.array([[0, 1.0, 0], [0, 0, 1.0]]), RoundTube(20, 2))
    low, high = member_box(body, (NO_CUT, NO_CUT))
    assert low == pytest.approx([-10, -10, -10])
    assert high == pytest.approx([210, 110, 10])
