"""The kernel's few operations, against sizes done by hand."""

from __future__ import annotations

import numpy as np
import pytest

from fitwright.sheets.solids.kernel import beyond, box, cylinder, gap, joined, solids_in, sound, volume, without
from tests.unit.sheets.solids.measure import bounds, extent

ORIGIN = np.zeros(3)


def test_box_and_cylinder() -> None:
    assert volume(box(ORIGIN, np.array([2.0, 3, 4]))) == pytest.approx(24)
    rod = cylinder(np.array([1.0, 1, 1]), np.array([3.0, 4, 0]), 2.0)
    assert volume(rod) == pytest.approx(np.pi * 4 * 5)
    assert extent(rod, np.array([0.6, 0.8, 0])) == pytest.approx(5)


def test_a_block_beyond_a_plane_lies_on_its_far_side() -> None:
    normal = np.array([0.0, 0.6, 0.8])
    block = beyond(np.array([1.0, 2, 3]), normal, 10.0)
    assert volume(block) == pytest.approx(20 * 20 * 10)
    assert gap(block, np.array([1.0, 2, 3]) + 5 * normal) == 0
    assert gap(block, np.array([1.0, 2, 3]) - 5 * normal) == pytest.approx(5)


def test_boxes_that_share_a_face_join() -> None:
    whole = joined([box(ORIGIN, np.array([1.0, 1, 1])), box(np.array([1.0, 0, 0]), np.array([3.0, 1, 1]))])
    assert len(solids_in(whole)) == 1
    assert sound(whole)
    assert volume(whole) == pytest.approx(3)


def test_a_slot_right_through_leaves_two_solids() -> None:
    left = without(box(ORIGIN, np.array([10.0, 1, 1])), [box(np.array([4.0, -1, -1]), np.array([5.0, 2, 2]))])
    assert sorted(volume(part) for part in solids_in(left)) == pytest.approx([4, 5])
    np.testing.assert_allclose(bounds(left)[1], [10, 1, 1], atol=1e-6)
