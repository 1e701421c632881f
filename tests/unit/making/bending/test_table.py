from __future__ import annotations

import math

import numpy as np
import pytest

from fitwright.making.bending.errors import BendError
from fitwright.making.bending.table import AT_ORIGIN, Bend, BendTable, path_of, pose_of, table_of
from fitwright.piece.path import Path, straight_path

RIGHT = math.pi / 2


def square(side: float, radius: float, seam: float = 0.5) -> Path:
    points = np.array([[0, 0, 0], [side, 0, 0], [side, side, 0], [0, side, 0]], dtype=float)
    return Path(points, np.full(4, radius), closed=True, seam=seam)


def test_a_straight_path_has_no_bends() -> None:
    table = table_of(straight_path(np.zeros(3), np.array([0, 0, 250.0])))
    assert table.bends == ()
    assert table.last_straight == pytest.approx(250.0)


def test_a_vertex_on_a_straight_line_is_no_bend() -> None:
    path = Path(np.array([[0, 0, 0], [100, 0, 0], [200, 0, 0], [200, 90, 0]], float), np.array([0, 30.0, 30.0, 0]))
    table = table_of(path)
    assert [bend.straight_before for bend in table.bends] == pytest.approx([170])
    assert table.last_straight == pytest.approx(60)


def test_a_closed_path_starts_at_its_seam() -> None:
    table = table_of(square(400, 50, seam=0.25))
    assert table.straights == pytest.approx((225, 300, 300, 300, 75))
    assert [bend.rotation for bend in table.bends] == pytest.approx([0, 0, 0, 0])
    assert table.length == pytest.approx(1200 + 2 * math.pi * 50)


def test_a_ring_is_one_bend() -> None:
    table = table_of(square(400, 200))
    (bend,) = table.bends
    assert (bend.angle, bend.radius) == pytest.approx((2 * math.pi, 200))
    assert table.straights == pytest.approx((0, 0))


def test_two_arcs_of_one_circle_are_one_bend_and_of_two_are_two() -> None:
    half = Path(np.array([[0, 0, 0], [150, 0, 0], [150, 100, 0], [0, 100, 0]], float), np.array([0, 50.0, 50.0, 0]))
    assert [bend.angle for bend in table_of(half).bends] == pytest.approx([math.pi])
    ess = Path(np.array([[0, 0, 0], [150, 0, 0], [150, 100, 0], [300, 100, 0]], float), np.array([0, 50.0, 50.0, 0]))
    assert [bend.rotation for bend in table_of(ess).bends] == pytest.approx([0, math.pi])
    assert table_of(ess).straights == pytest.approx((100, 0, 100))


def test_a_sharp_corner_is_a_mitre() -> None:
    path = Path(np.array([[0, 0, 0], [100, 0, 0], [100, 100, 0]], float), np.zeros(3))
    with pytest.raises(BendError, match=r"sharp corner at \(100.0, 0.0, 0.0\)"):
        table_of(path)


def test_a_bend_of_more_than_half_a_turn_is_drawn_with_several_vertices() -> None:
    table = BendTable((Bend(200, 0, math.radians(300), 60),), 100)
    path = path_of(table)
    assert len(path.vertices) == 5
    assert table_of(path).bends[0].angle == pytest.approx(math.radians(300))


@pytest.mark.parametrize("bend", [Bend(10, 0, -0.2, 50), Bend(10, 0, 1, 0), Bend(-1, 0, 1, 50)])
def test_a_bend_that_is_none(bend: Bend) -> None:
    with pytest.raises(BendError, match="bend 1"):
        path_of(BendTable((bend,), 100))


def test_a_rotation_to_the_right_of_the_travel() -> None:
    """Along x, then up y; +90 about y takes the axis of the bend from z to x, so that the tube turns up, to z."""
    table = BendTable((Bend(100, 0, RIGHT, 50), Bend(100, RIGHT, RIGHT, 50)), 100)
    path = path_of(table, AT_ORIGIN)
    assert path.end == pytest.approx([150, 200, 150])


def test_pose_of_a_straight_path_has_some_axis_across() -> None:
    pose = pose_of(straight_path(np.zeros(3), np.array([0, 0, 9.0])))
    assert pose.axis @ pose.direction == pytest.approx(0)
    assert np.linalg.norm(pose.axis) == pytest.approx(1)
