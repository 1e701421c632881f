"""Paths through vertices: tangent points, segments, seams, and what cannot be followed."""

from __future__ import annotations

from fractions import Fraction
from math import pi, sqrt

import numpy as np
import pytest

from fitwright.piece.path import Arc, BendOverlap, Path, PathError, Straight, straight_path
from fitwright.units import Style


def path(points: list[tuple[float, ...]], radius: float, closed: bool = False) -> Path:
    vertices = np.array(points, dtype=float)
    radii = np.full(len(vertices), radius, dtype=float)
    if not closed:
        radii[[0, -1]] = 0
    return Path(vertices, radii, closed)


def test_quarter_bend() -> None:
    bent = path([(0, 0, 0), (100, 0, 0), (100, 80, 0)], 30)
    first, arc, last = bent.segments
    assert isinstance(first, Straight)
    assert isinstance(arc, Arc)
    assert [first.length, arc.length, last.length] == pytest.approx([70, 15 * pi, 50])
    assert arc.centre == pytest.approx([70, 30, 0])
    assert arc.at(np.array([pi / 4]))[0] == pytest.approx([70 + 15 * sqrt(2), 30 - 15 * sqrt(2), 0])
    assert arc.tangent(np.array([pi / 2]))[0] == pytest.approx([0, 1, 0])
    assert bent.bent
    assert not straight_path(np.zeros(3), np.ones(3)).bent


def test_a_leg_all_taken_by_its_bends_leaves_no_straight() -> None:
    u = path([(0, 0, 0), (0, 0, 100), (60, 0, 100), (60, 0, 0)], 30)
    assert [type(segment) for segment in u.segments] == [Straight, Arc, Arc, Straight]
    assert u.length == pytest.approx(140 + 30 * pi)


def test_closed_path_is_walked_from_its_seam() -> None:
    loop = path([(0, 0, 0), (200, 0, 0), (200, 100, 0), (0, 100, 0)], 20, closed=True)
    assert loop.start == pytest.approx([100, 0, 0])
    assert loop.end == pytest.approx(loop.start)
    assert loop.length == pytest.approx(2 * 160 + 2 * 60 + 40 * pi)
    moved = Path(loop.vertices, loop.radii, closed=True, seam=0.25)
    assert moved.start == pytest.approx([60, 0, 0])
    assert moved.length == pytest.approx(loop.length)


def test_a_full_circle_has_no_straights() -> None:
    ring = path([(50, -50, 0), (50, 50, 0), (-50, 50, 0), (-50, -50, 0)], 50, closed=True)
    assert all(isinstance(segment, Arc) for segment in ring.segments)
    assert ring.length == pytest.approx(100 * pi)


def test_bends_that_overlap_say_by_how_much_in_any_unit() -> None:
    with pytest.raises(BendOverlap) as caught:
        path([(0, 0, 0), (0, 0, 508), (50.8, 0, 508), (50.8, 0, 0)], 38.1)
    assert "takes" not in str(caught.value)
    assert "is 50.8 mm long and its bends take 76.2 mm of it: lengthen the leg by 25.4 mm" in str(caught.value)
    assert caught.value.told(Style.inch(Fraction(1, 16))) == (
        'the leg from point 2 to point 3, at (2, 0, 20) in, is 2" long and its bends take 3" of it: '
        'lengthen the leg by 1" or bend to a smaller radius than 1 1/2"'
    )


@pytest.mark.parametrize(
    ("points", "closed", "why"),
    [
        ([(0, 0, 0)], False, "at least 2 points"),
        ([(0, 0, 0), (1, 0, 0)], True, "at least 3 points"),
        ([(0, 0, 0), (0, 0, 0), (1, 0, 0)], False, "points 1 and 2 of the path are the same"),
        ([(0, 0, 0), (9, 0, 0), (9, 9, 0), (0, 0, 0)], True, "points 4 and 1 of the path are the same"),
        ([(0, 0, 0), (100, 0, 0), (20, 0, 0)], False, "folds straight back on itself at point 2"),
    ],
)
def test_what_cannot_be_followed(points: list[tuple[float, ...]], closed: bool, why: str) -> None:
    with pytest.raises(PathError, match=why):
        path(points, 0, closed)
