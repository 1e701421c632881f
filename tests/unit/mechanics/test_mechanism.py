from __future__ import annotations

from typing import Any

import numpy as np
import pytest

from fitwright.errors import FitwrightError
from fitwright.mechanics import FrameModel, Mechanism, factorise, frame_model, refine, supports

SECTION: dict[str, Any] = {"e": 2e5, "g": 8e4, "area": 200.0, "i_y": 3e4, "i_z": 3e4, "j": 6e4}
HINGE = [False] * 9 + [True] * 3
RIGID = [False] * 12


def portal(releases: list[list[bool]] | bool = False) -> FrameModel:
    return frame_model(
        [[0, 0, 0], [0, 0, 800], [500, 0, 800], [500, 0, 0]],
        [[0, 1], [1, 2], [2, 3]],
        **SECTION,
        releases=releases,
        node_labels=["foot left", "corner left", "corner right", "foot right"],
        element_labels=["A1", "B1", "A2"],
    )


def test_is_both_ours_and_a_value_error() -> None:
    assert issubclass(Mechanism, FitwrightError)
    assert issubclass(Mechanism, ValueError)


def test_nothing_held_floats() -> None:
    model = portal()
    with pytest.raises(Mechanism, match="A1, B1, A2 floats") as caught:
        factorise(model, supports(model))
    assert caught.value.elements == ("A1", "B1", "A2")


def test_loose_part_is_named() -> None:
    model = frame_model(
        [[0, 0, 0], [0, 0, 800], [50, 0, 0], [50, 0, 800]],
        [[0, 1], [2, 3]],
        **SECTION,
        element_labels=["A1", "shelf"],
    )
    with pytest.raises(Mechanism, match="shelf floats") as caught:
        factorise(model, supports(model, {0: "fixed"}))
    assert caught.value.elements == ("shelf",)


def test_node_without_members_is_named() -> None:
    model = frame_model(
        [[0, 0, 0], [0, 0, 800], [9, 9, 9]], [[0, 1]], **SECTION, node_labels=["foot", "top", "stray hole"]
    )
    with pytest.raises(Mechanism, match="stray hole can move freely"):
        factorise(model, supports(model, {0: "fixed"}))


def test_three_balls_and_no_brace_sway() -> None:
    """Pinned feet and hinged corners: a four-bar linkage in its plane."""
    in_plane = [False] * 10 + [True, False]
    model = portal([in_plane, in_plane, RIGID])
    with pytest.raises(Mechanism, match="A1") as caught:
        factorise(model, supports(model, {0: "ux uy uz rx rz", 3: "ux uy uz rx rz"}))
    assert "corner left" in caught.value.nodes
    assert "ux" in str(caught.value)


def test_whole_frame_that_can_turn_about_its_feet() -> None:
    """Two pinned feet leave the frame free to fall over about the line through them."""
    model = portal()
    with pytest.raises(Mechanism, match="uy") as caught:
        factorise(model, supports(model, {0: "pinned", 3: "pinned"}))
    assert set(caught.value.nodes) >= {"corner left", "corner right"}


def test_joint_with_all_turning_released() -> None:
    model = portal([HINGE, [False] * 3 + [True] * 3 + [False] * 6, RIGID])
    with pytest.raises(Mechanism, match="corner left can move freely \\(rx, ry, rz\\)"):
        factorise(model, supports(model, {0: "fixed", 3: "fixed"}))


def test_slender_is_not_loose() -> None:
    """200 elements in a row on one support: very flexible beside one element, and still no mechanism."""
    model = refine(frame_model([[0, 0, 0], [9000, 0, 0]], [[0, 1]], **SECTION), 200)
    assert factorise(model, supports(model, {0: "fixed"})).lu is not None


def test_soft_springs_are_enough() -> None:
    model = portal()
    soft = np.full(6, 0.01)
    assert factorise(model, supports(model, {}, {0: soft, 3: soft})).lu is not None


def test_long_list_is_cut_short() -> None:
    model = refine(portal(), 8)
    with pytest.raises(Mechanism) as caught:
        factorise(model, supports(model, {0: "pinned", 3: "pinned"}))
    assert "more" in str(caught.value)
