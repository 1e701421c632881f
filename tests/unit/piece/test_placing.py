"""Repeats and mirrors; copies drawn on the outside stay within their places."""

from __future__ import annotations

import numpy as np
import pytest

from fitwright.job.model import Along, Around, Mirror, Slanted
from fitwright.piece.placing import copies

POINT = np.array([10.0, 20.0, 30.0])


def test_grids_come_before_mirrors() -> None:
    placed = [copy.points(POINT).tolist() for copy in copies((Mirror(0, 0), Along(1, (0, 100))))]
    assert placed == [[10, 20, 30], [-10, 20, 30], [10, 120, 30], [-10, 120, 30]]


def test_even_steps_on_a_slant_make_a_grid_with_the_others() -> None:
    placed = [copy.points(POINT).tolist() for copy in copies((Along(0, (0, 5)), Slanted((0, 3, 4), 2)))]
    assert placed == [[10, 20, 30], [10, 23, 34], [15, 20, 30], [15, 23, 34]]


def test_turning_about_a_line() -> None:
    placed = [copy.points(POINT) for copy in copies((Around(10, 0, 4),))]
    assert np.array(placed) == pytest.approx(np.array([[10, 20, 30], [-10, 0, 30], [10, -20, 30], [30, 0, 30]]))


def test_two_mirrors_make_four() -> None:
    placed = {tuple(copy.points(POINT).tolist()) for copy in copies((Mirror(0, 100), Mirror(1, 50)))}
    assert placed == {(10, 20, 30), (190, 20, 30), (10, 80, 30), (190, 80, 30)}


def test_mirrored_directions_turn_round() -> None:
    near, far = copies((Mirror(0, 0),))
    assert far.directions(np.eye(3)).tolist() == [[-1, 0, 0], [0, 1, 0], [0, 0, 1]]
    assert near.directions(np.eye(3)).tolist() == np.eye(3).tolist()


def test_outside_copies_share_the_difference_evenly() -> None:
    """A part that reaches 15 to either side of its line, at overall places 0, 100 and 400."""
    placed = copies((Along(1, (0, 100, 400)),), lambda axis: (15, 15, 0.0) if axis == 1 else None)
    assert [copy.move[1] for copy in placed] == pytest.approx([15, 107.5, 385])


def test_outside_mirror_image() -> None:
    """Drawn on the outside at 0, mirrored at 200: from 0 to 400 overall."""
    placed = copies((Mirror(1, 200),), lambda axis: (15, 15, 0.0) if axis == 1 else None)
    assert [copy.points(np.zeros(3))[1] for copy in placed] == pytest.approx([15, 385])
