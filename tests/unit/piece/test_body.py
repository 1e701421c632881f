"""Distances from bodies, and sections carried round bends."""

from __future__ import annotations

from math import hypot, pi, sqrt

import numpy as np
import pytest

from fitwright.piece.body import Body, rotated
from fitwright.piece.path import Path, straight_path
from fitwright.stock import Flat, RoundTube

ALONG_X = np.array([[0.0, 1.0, 0.0], [0.0, 0.0, 1.0]])


def test_rodrigues() -> None:
    """(1,0,0) about (1,1,1) by 120 degrees; (1,2,3) about z by 30: handbook values of the rotation formula."""
    axis = np.ones(3) / sqrt(3)
    assert rotated(np.array([1.0, 0, 0]), axis, 2 * pi / 3) == pytest.approx([0, 1, 0])
    assert rotated(np.array([1.0, 0, 0]), axis, pi / 2) == pytest.approx([0.333333, 0.910684, -0.244017], abs=1e-6)
    turned = rotated(np.array([1.0, 2, 3]), np.array([0, 0, 1.0]), pi / 6)
    assert turned == pytest.approx([-0.133975, 2.232051, 3], abs=1e-6)


def test_distance_from_a_straight_tube() -> None:
    body = Body(straight_path(np.zeros(3), np.array([100.0, 0, 0])), ALONG_X, RoundTube(20, 2))
    points = np.array(
        [[50, 0, 0], [50, 15, 0], [50, 0, -8], [103, 0, 0], [103, 14, 0], [-4, 0, 0], [99, 0, 0]], dtype=float
    )
    assert body.distance(points) == pytest.approx([-10, 5, -2, 3, hypot(3, 4), 4, -1])


def test_distance_from_a_bend() -> None:
    path = Path(np.array([[0, 0, 0], [100, 0, 0], [100, 100, 0]], dtype=float), np.array([0, 50, 0.0]))
    body = Body(path, ALONG_X, RoundTube(20, 2))
    # The bend turns about (50, 50): 50 from there lies the axis.
    diagonal = 50 + 50 / sqrt(2) * np.array([1, -1])
    assert body.distance(np.array([[*diagonal, 0.0]])) == pytest.approx([-10])
    assert body.distance(np.array([[50, 50, 0], [50, 50, 30.0]])) == pytest.approx([40, hypot(50, 30) - 10])
    assert body.distance(np.array([[100, -3, 0.0]])) == pytest.approx([hypot(50, 53) - 50 - 10])


def test_no_surface_lies_at_a_seam_inside_a_member() -> None:
    path = Path(np.array([[0, 0, 0], [100, 0, 0], [100, 100, 0]], dtype=float), np.array([0, 50, 0.0]))
    body = Body(path, ALONG_X, RoundTube(20, 2))
    assert body.distance(np.array([[49.99, 0, 0], [50, 0, 0], [50.01, 0, 0]])) == pytest.approx([-10] * 3, abs=0.01)


def test_a_flat_bent_the_easy_way_keeps_its_wide_side_up() -> None:
    path = Path(np.array([[0, 0, 0], [100, 0, 0], [100, 100, 0]], dtype=float), np.array([0, 50, 0.0]))
    body = Body(path, np.array([[0, 0, 1.0], [0, 1.0, 0]]), Flat(30, 5))
    assert body.end_frame == pytest.approx(np.array([[0, 0, 1.0], [-1.0, 0, 0]]))
    assert body.outward(0) == pytest.approx([-1, 0, 0])
    assert body.outward(1) == pytest.approx([0, 1, 0])
    rim = body.place(1, np.array([0.5]), np.array([[15.0, 0.0]]))[0, 0]
    assert rim == pytest.approx([50 + 50 / sqrt(2), 50 - 50 / sqrt(2), 15])


def test_boxes_hold_the_solid() -> None:
    path = Path(np.array([[0, 0, 0], [100, 0, 0], [100, 100, 40]], dtype=float), np.array([0, 50, 0.0]))
    body = Body(path, ALONG_X, RoundTube(20, 2))
    for k in range(3):
        points = body.place(k, np.linspace(0, 1, 40), body.section.outline(36)).reshape(-1, 3)
        assert (points >= body.boxes[k, 0] - 1e-9).all()
        assert (points <= body.boxes[k, 1] + 1e-9).all()
