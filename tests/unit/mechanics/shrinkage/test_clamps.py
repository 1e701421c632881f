from __future__ import annotations

import numpy as np

from fitwright.mechanics.framing import Framed
from fitwright.mechanics.shrinkage import Bead
from fitwright.mechanics.shrinkage.clamps import bench_face, clamp_points, clamped
from fitwright.mechanics.shrinkage.welded import group_of, welded_groups

Frame = tuple[Framed, tuple[Bead, ...]]


def test_a_flat_frame_lies_flat(table: Frame, box: Frame) -> None:
    assert bench_face(welded_groups(*table)[0])[0] == 1
    assert bench_face(welded_groups(*box)[0])[0] == 2


def test_every_member_on_the_bench_has_two_clamps(box: Frame) -> None:
    group = welded_groups(*box)[0]
    points = clamp_points(group, clamped(group))
    assert len(points) == 8
    assert np.abs(points[:, 2] - points[0, 2]).max() < 1e-9


def test_a_single_bar_is_kept_from_turning(tee: Frame) -> None:
    group = group_of(tee[0], [0])
    held = clamped(group)
    assert held.spring_stiffness[:, 3:, 3:].any()
    assert not held.held.any()
