from __future__ import annotations

import numpy as np

from fitwright.making.bench.groups import groups_of, plane_of
from fitwright.making.bench.pose import posed, up_words
from tests.demos import assessed
from tests.unit.making.bench.samples import STAND, built, hoop


def test_flat_frames_come_first_and_the_whole_last() -> None:
    _, piece = built(STAND)
    groups = groups_of(piece)
    assert [group.name for group in groups] == ["base", "top", "the whole"]
    assert groups[-1].of == (0, 1)
    assert set(groups[-1].members) == {m.index for m in piece.members}


def test_the_workbench_is_a_top_two_ends_and_the_whole() -> None:
    groups = groups_of(assessed("workbench").piece)
    assert [len(group.members) for group in groups] == [4, 3, 3, 11]


def test_a_bent_member_is_a_set_up_by_itself() -> None:
    _, piece = built(hoop())
    (group,) = groups_of(piece)
    assert group.members == (0,)
    assert up_words(posed(piece, (group,), 0).rotation[2]) in ("front", "back")


def test_points_in_a_line_or_off_a_plane_make_none() -> None:
    assert plane_of(np.array([[0.0, 0, 0], [1, 0, 0], [2, 0, 0]])) is None
    assert plane_of(np.array([[0.0, 0, 0], [100, 0, 0], [0, 100, 0], [50, 50, 20]])) is None
    normal = plane_of(np.array([[0.0, 0, 0], [100, 0, 0], [0, 100, 0], [50, 50, 1]]))
    assert normal is not None
    assert abs(normal[2]) > 0.999


def test_the_largest_flat_side_goes_down() -> None:
    job = assessed("workbench")
    order = groups_of(job.piece)
    whole = posed(job.piece, order, len(order) - 1)
    assert up_words(whole.rotation[2]) == "bottom"
    assert whole.base.name == "top frame"
    assert np.allclose(whole.low, 0.0)
