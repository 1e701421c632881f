from __future__ import annotations

import numpy as np
import pytest

from fitwright.place.photo.facing import LEVEL, common_direction, facing, nearest_level, plane_normals
from fitwright.place.photo.gathering import gathered
from tests.unit.place.photo.samples import Clicks, box_photo, camera

BOX = (800.0, 600.0, 900.0)


@pytest.mark.parametrize("marked", ["xyz", "xy", "xz", "yz"])
def test_rotation_from_edges(marked: str) -> None:
    one = camera()
    scene = gathered(box_photo(Clicks(one, np.random.default_rng(1)), BOX, 0), 1.0)
    normals = {axis: rows for axis, rows in plane_normals(scene, one.lens).items() if axis in marked}
    found = facing(normals)
    assert found.rotation == pytest.approx(one.rotation, abs=1e-6)
    assert found.miss == pytest.approx(0, abs=1e-6)


def test_one_direction_leaves_the_rest_level() -> None:
    one = camera(roll=0.0)
    scene = gathered(box_photo(Clicks(one, np.random.default_rng(1)), BOX, 0), 1.0)
    normals = {"y": plane_normals(scene, one.lens)["y"]}
    found = facing(normals).rotation
    assert abs(found[:, 1] @ one.rotation[:, 1]) == pytest.approx(1, abs=1e-9)
    assert np.linalg.det(found) == pytest.approx(1)


def test_no_direction_is_a_level_camera() -> None:
    assert facing({}).rotation.tolist() == LEVEL.tolist()
    assert np.linalg.det(LEVEL) == pytest.approx(1)


def test_axes_are_turned_the_usual_way() -> None:
    """x to the right, y away, z up, whichever way edges were marked."""
    upside_down = LEVEL @ np.diag([-1.0, 1.0, -1.0])
    assert nearest_level(upside_down) == pytest.approx(LEVEL)


def test_common_direction_is_in_all_planes() -> None:
    rows = np.array([[1.0, 0, 0], [0, 1.0, 0], [1.0, 1.0, 0]])
    assert np.abs(common_direction(rows)) == pytest.approx([0, 0, 1])
