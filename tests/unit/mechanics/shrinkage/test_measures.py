from __future__ import annotations

import numpy as np
import pytest

from fitwright.mechanics.framing import Framed
from fitwright.mechanics.shrinkage import Bead
from fitwright.mechanics.shrinkage.measures import measures_of, points_of, translations, without_rigid
from fitwright.mechanics.shrinkage.welded import welded_groups

Frame = tuple[Framed, tuple[Bead, ...]]


def test_a_rigid_motion_is_no_movement(table: Frame) -> None:
    group = welded_groups(table[0], table[1])[0]
    points = points_of(group, {})
    at = np.array([point.at for point in points])
    motion = np.array([1.0, -2.0, 0.5]) + np.cross([0.001, 0.002, -0.003], at)
    assert np.abs(without_rigid(points) @ motion.ravel()).max() < 1e-9
    for measure in measures_of(group, points):
        assert float((measure.weights * motion).sum()) == pytest.approx(0.0, abs=1e-9)


def test_open_ends_are_found_and_paired(table: Frame) -> None:
    group = welded_groups(table[0], table[1])[0]
    found = [m for m in measures_of(group, points_of(group, {})) if m.kind == "apart"]
    assert any("leg 1" in m.subject and "leg 2" in m.subject for m in found)
    feet = next(m for m in found if "leg 1" in m.subject and "leg 2" in m.subject)
    assert feet.nominal == pytest.approx(600.0)


def test_a_bow_is_the_middle_off_the_line_of_the_ends(table: Frame) -> None:
    group = welded_groups(table[0], table[1])[0]
    points = points_of(group, {})
    bows = [m for m in measures_of(group, points) if m.kind == "bow" and "stretcher" in m.subject]
    assert len(bows) == 2
    up = next(m for m in bows if "up" in m.more or "down" in m.more)
    middle = next(i for i, p in enumerate(points) if p.name == "middle of stretcher")
    moved = np.zeros((len(points), 3))
    moved[middle, 2] = 0.7
    assert abs(float((up.weights * moved).sum())) == pytest.approx(0.7)


def test_movements_are_read_where_the_points_are(tee: Frame) -> None:
    group = welded_groups(tee[0], tee[1])[0]
    points = points_of(group, {})
    displacements = np.arange(group.model.dof_count, dtype=np.float64)
    read = (translations(group, points) @ displacements).reshape(-1, 3)
    assert read[0] == pytest.approx(6 * points[0].node + np.arange(3))
