from __future__ import annotations

from typing import Any

import numpy as np
import pytest

from fitwright.mechanics import FrameError, frame_model
from fitwright.mechanics.axes import local_axes, skew

SECTION: dict[str, Any] = {"e": 2e5, "g": 8e4, "area": 200.0, "i_y": 3e4, "i_z": 3e4, "j": 6e4}


def test_local_z_points_up_unless_told() -> None:
    model = frame_model([[0, 0, 0], [3, 4, 0], [0, 0, 7]], [[0, 1], [0, 2]], **SECTION)
    length, rotation = local_axes(model)
    assert length == pytest.approx([5.0, 7.0])
    assert rotation[0] == pytest.approx(np.array([[0.6, 0.8, 0], [-0.8, 0.6, 0], [0, 0, 1]]))
    assert rotation[1] == pytest.approx(np.array([[0, 0, 1], [0, 1, 0], [-1, 0, 0]]))


def test_rows_are_right_handed_unit_vectors() -> None:
    rng = np.random.default_rng(0)
    model = frame_model(rng.normal(size=(6, 3)), [[0, 1], [2, 3], [4, 5]], **SECTION, y_axis=rng.normal(size=(3, 3)))
    _, rotation = local_axes(model)
    assert rotation @ rotation.transpose(0, 2, 1) == pytest.approx(np.tile(np.eye(3), (3, 1, 1)), abs=1e-12)
    assert np.linalg.det(rotation) == pytest.approx([1.0, 1.0, 1.0])


def test_skew_is_the_cross_product() -> None:
    a, b = np.array([1.0, -2.0, 3.0]), np.array([0.5, 4.0, -1.0])
    assert skew(a) @ b == pytest.approx(np.cross(a, b))


def test_no_length() -> None:
    model = frame_model([[0, 0, 0], [1, 0, 0]], [[0, 1]], **SECTION, offsets=[[[1, 0, 0], [0, 0, 0]]])
    with pytest.raises(FrameError, match="element 0 has no length"):
        local_axes(model)


def test_y_along_itself() -> None:
    model = frame_model([[0, 0, 0], [1, 0, 0]], [[0, 1]], **SECTION, y_axis=(2, 0, 0), element_labels=["A1"])
    with pytest.raises(FrameError, match="A1 has its y axis along itself"):
        local_axes(model)
