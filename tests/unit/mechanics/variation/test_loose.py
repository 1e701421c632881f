from __future__ import annotations

import numpy as np
import pytest

from tests.unit.mechanics.variation.samples import RACK, TABLE, frame_of, setting_of


def test_members_share_no_node() -> None:
    parts = setting_of(RACK).parts
    owner = parts.member_of[parts.model.elements]
    assert (owner[:, 0] == owner[:, 1]).all()
    assert sum(len(nodes) for nodes in parts.nodes_of.values()) == parts.model.node_count


def test_elements_lie_where_they_lay() -> None:
    assert setting_of(RACK).parts.model.ends == pytest.approx(frame_of(RACK).model.ends)


def test_meetings_join_the_members_of_the_joint() -> None:
    parts, piece = setting_of(RACK).parts, frame_of(RACK).piece
    assert len(parts.meetings) == len(piece.joints)
    for meeting in parts.meetings:
        joint = piece.joints[meeting.joint]
        assert [int(parts.member_of[n]) for n in meeting.nodes] == [joint.first, joint.second]
        gap = parts.model.nodes[meeting.nodes[1]] - parts.model.nodes[meeting.nodes[0]]
        assert np.linalg.norm(gap) < 40


def test_a_mitre_gapes_square_to_its_plane() -> None:
    for meeting in setting_of(TABLE).parts.meetings:
        if meeting.seat.kind == "corner":
            assert np.abs(meeting.axes[0]) == pytest.approx([0.5**0.5, 0.5**0.5, 0])
            assert np.abs(meeting.axes[2]) == pytest.approx([0, 0, 1])


def test_feet_stand_on_the_ends_of_legs() -> None:
    parts = setting_of(RACK).parts
    assert len(parts.feet) == 4
    for foot in parts.feet:
        assert foot.point[2] == pytest.approx(0, abs=1e-6)
        assert parts.model.nodes[foot.node] == pytest.approx(foot.point + np.array([0, 0, 60.0]), abs=1e-3)
