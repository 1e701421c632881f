from __future__ import annotations

from typing import Any

import pytest

from fitwright.mechanics import frame_model, refine

SECTION: dict[str, Any] = {"e": 2e5, "g": 8e4, "area": 200.0, "i_y": 2e4, "i_z": 3e4, "j": 6e4}


def test_parts_labels_releases_and_offsets() -> None:
    model = frame_model(
        [[0, 0, 0], [300, 0, 0], [300, 60, 0]],
        [[0, 1], [1, 2]],
        **SECTION,
        offsets=[[[0, 0, 3], [0, 0, 3]], [[0, 0, 0], [0, 0, 0]]],
        releases=[[True] * 3 + [False] * 6 + [True] * 3, [False] * 12],
        element_labels=["A1", "A2"],
    )
    fine = refine(model, 3)
    assert fine.elements.tolist() == [[0, 3], [3, 4], [4, 1], [1, 5], [5, 6], [6, 2]]
    assert fine.nodes[3] == pytest.approx([100, 0, 3])
    assert fine.nodes[6] == pytest.approx([300, 40, 0])
    assert fine.offsets[:3, :, 2].tolist() == [[3, 0], [0, 0], [0, 3]]
    assert fine.releases.any(axis=1).tolist() == [True, False, True, False, False, False]
    assert fine.element_labels == ("A1", "A1", "A1", "A2", "A2", "A2")
    assert fine.node_labels[3:5] == ("A1 at 1/3", "A1 at 2/3")


def test_one_part_is_the_same_frame() -> None:
    model = frame_model([[0, 0, 0], [300, 0, 0]], [[0, 1]], **SECTION)
    assert refine(model, 1).nodes.tolist() == model.nodes.tolist()
