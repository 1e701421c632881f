from __future__ import annotations

import numpy as np

from fitwright.mechanics.variation import usual_sequence
from fitwright.mechanics.variation.groups import joined_in, normal_of, touching
from tests.unit.mechanics.variation.samples import RACK, TABLE, frame_of, setting_of


def named(text: str) -> list[list[str]]:
    members = frame_of(text).piece.members
    return [[members[k].name for k in group] for group in usual_sequence(setting_of(text).parts)]


def test_bent_hoops_alone_and_the_flat_frame_between_them() -> None:
    assert named(RACK) == [["tie 1", "tie 2", "rail"], ["hoop 1"], ["hoop 2"]]


def test_a_mitred_top_first() -> None:
    assert named(TABLE) == [["top leg 1", "top leg 2", "top leg 3", "top leg 4"]]


def test_joints_of_a_group() -> None:
    parts = setting_of(TABLE).parts
    group = usual_sequence(parts)[0]
    assert len(joined_in(parts, group)) == 4


def test_a_straight_line_has_no_plane() -> None:
    assert normal_of(np.array([[0.0, 0, 0], [1, 0, 0], [5, 0, 0]])) is None
    normal = normal_of(np.array([[0.0, 0, 7], [100, 0, 7], [0, 300, 7]]))
    assert normal is not None
    assert np.allclose(normal, [0, 0, 1])


def test_groups_that_share_a_member() -> None:
    assert touching(((0, 1), (1, 2)))
    assert not touching(((0, 1), (2, 3)))
