from __future__ import annotations

import numpy as np
import pytest

from fitwright.mechanics import misfits, solve
from fitwright.mechanics.framing import Framed
from fitwright.mechanics.shrinkage import Bead, runs_of
from fitwright.mechanics.shrinkage.clamps import clamped
from fitwright.mechanics.shrinkage.welded import (
    Group,
    Joined,
    compliance,
    floating,
    group_of,
    joined,
    seam_motion_at,
    welded_groups,
)

Frame = tuple[Framed, tuple[Bead, ...]]


def _joined(frame: Frame) -> tuple[Group, Joined]:
    group = welded_groups(frame[0], frame[1])[0]
    runs = runs_of(frame[1], frame[0].piece.members)
    return group, joined(group, dict(enumerate(frame[1])), runs)


def test_everything_that_is_welded_together_is_one_group(table: Frame) -> None:
    groups = welded_groups(table[0], table[1])
    assert [group.members for group in groups] == [(0, 1, 2, 3)]
    assert groups[0].model.element_count == table[0].model.element_count


def test_a_part_of_the_frame_stands_by_itself(table: Frame) -> None:
    alone = group_of(table[0], [0])
    assert set(table[0].member_of[alone.kept].tolist()) == {0}
    assert alone.model.node_count == alone.model.element_count + 1


def test_gaps_for_every_welded_end_and_every_host(table: Frame) -> None:
    _, links = _joined(table)
    assert links.welds == 4
    assert len(links.host_of_bead) == 4
    assert all(sum(abs(share) for _, _, share in links.gaps.ends[g]) == 1.0 for g in links.host_of_bead.values())


def test_a_gap_moves_the_frame_as_a_misfit_does(table: Frame) -> None:
    group, links = _joined(table)
    held = compliance(group, links.gaps, clamped(group))
    element, end, _ = links.gaps.ends[0][0]
    unit = np.array([[0.1, -0.2, 0.3, 0.001, 0.002, -0.001]])
    by_misfit = solve(held.factor, misfits(group.model, [element], [end], unit)).displacements[:, 0]
    everything = np.eye(group.model.dof_count)
    assert held.read(everything)[:, :6] @ unit[0] == pytest.approx(by_misfit, abs=1e-9)


def test_stiffness_over_the_gaps_is_symmetric_and_never_gives_energy(table: Frame) -> None:
    group, links = _joined(table)
    for held in (clamped(group), floating(group)):
        k = compliance(group, links.gaps, held).joint_stiffness
        size = np.sqrt(np.maximum(k.diagonal(), 1.0))
        scaled = k / np.outer(size, size)
        assert np.abs(scaled - scaled.T).max() < 1e-6
        assert np.linalg.eigvalsh(scaled).min() > -1e-5


def test_a_free_end_has_no_stiffness(tee: Frame) -> None:
    group, links = _joined(tee)
    k = compliance(group, links.gaps, floating(group)).joint_stiffness
    assert np.abs(k).max() < 1e-4 * np.abs(group.model.e[0] * group.model.area[0])


def test_a_motion_seen_from_elsewhere() -> None:
    turned = seam_motion_at(np.array([0.0, 0, 0, 0, 0, 0.01]), np.zeros(3), np.array([100.0, 0, 0]))
    assert turned == pytest.approx([0, 1, 0, 0, 0, 0.01])
