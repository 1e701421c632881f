from __future__ import annotations

from typing import Any

import numpy as np
import pytest

from fitwright.mechanics import FrameError, FrameModel, frame_model

SECTION: dict[str, Any] = {"e": 2e5, "g": 8e4, "area": 200.0, "i_y": 3e4, "i_z": 3e4, "j": 6e4}


def test_one_value_holds_for_all() -> None:
    model = frame_model([[0, 0, 0], [1, 0, 0], [2, 0, 0]], [[0, 1], [1, 2]], **SECTION)
    assert model.area.tolist() == [200.0, 200.0]
    assert model.dof_count == 18
    assert model.element_dofs[1].tolist() == [6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16, 17]
    assert model.element_labels == ("element 0", "element 1")


def test_axes_given_by_z() -> None:
    model = frame_model([[0, 0, 0], [5, 0, 0]], [[0, 1]], **SECTION, z_axis=(0, 0, 1))
    assert model.y_axis / np.linalg.norm(model.y_axis) == pytest.approx(np.array([[0.0, 1.0, 0.0]]))


def test_ends_lie_at_their_offsets() -> None:
    model = frame_model([[0, 0, 0], [5, 0, 0]], [[0, 1]], **SECTION, offsets=[[[0, 0, 1], [1, 0, 0]]])
    assert model.ends[0].tolist() == [[0, 0, 1], [6, 0, 0]]


def build(**changes: object) -> FrameModel:
    data: dict[str, object] = {"nodes": [[0, 0, 0], [1, 0, 0]], "elements": [[0, 1]], **SECTION, **changes}
    return frame_model(**data)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("changes", "says"),
    [
        ({"elements": [[0, 2]]}, r"element 0 joins nodes \(0, 2\).*between 0 and 1"),
        ({"elements": [[1, 1]]}, "two different nodes"),
        ({"area": 0.0, "element_labels": ["A1"]}, "A1: area must be more than 0"),
        ({"i_yz": 3e4}, "i_yz squared"),
        ({"softening": 0.5}, "softening must be at least 1"),
        ({"area": [1.0, 2.0, 3.0]}, r"shape \(3,\) does not fit \(1,\)"),
        ({"e": np.inf}, "e must be finite"),
        ({"node_labels": ["one"]}, "one label for each"),
        ({"links": [[0, 0]]}, "link 0"),
        ({"rigid": [[0, 5]]}, "rigid tie 0"),
    ],
)
def test_wrong_data_is_named(changes: dict[str, object], says: str) -> None:
    with pytest.raises(FrameError, match=says):
        build(**changes)
