"""Hulls, widths and supports, by hand."""

from __future__ import annotations

import numpy as np
import pytest

from fitwright.place.route.convex import box_corners, hull, least_width, normals, supports, turned

BOX = box_corners((0, 0), (300, 100))


def test_a_hull_of_many_points_is_that_of_few() -> None:
    inside = np.random.default_rng(7).uniform((1, 1), (299, 99), (200, 2))
    assert {tuple(p) for p in hull(np.vstack([BOX, inside])).tolist()} == {tuple(p) for p in BOX.tolist()}


@pytest.mark.parametrize("points", [[[0, 0]], [[0, 0], [1, 1], [2, 2]]])
def test_a_hull_without_area(points: list[list[float]]) -> None:
    assert len(hull(np.array(points, dtype=float))) == min(len(points), 2)


def test_normals_of_a_line_are_both_its_sides() -> None:
    assert sorted(normals(np.array([[0.0, 0], [5, 0]])).round(9).tolist()) == [[0.0, -1.0], [0.0, 1.0]]


def test_the_least_width_stands_on_an_edge() -> None:
    width, across = least_width(turned(BOX, 0.3))
    assert width == pytest.approx(100)
    assert abs(np.sin(across - 0.3)) == pytest.approx(1)


def test_a_support_is_the_farthest_corner() -> None:
    assert supports(BOX, np.array([0.0, np.pi / 2, np.pi])).tolist() == pytest.approx([300, 100, 0])
