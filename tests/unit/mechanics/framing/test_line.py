from __future__ import annotations

import numpy as np
import pytest

from fitwright.mechanics.framing.line import working_line
from tests.unit.mechanics.framing.pieces import TABLE, made


def test_a_branch_stops_at_the_surface_of_what_it_meets() -> None:
    _, piece = made(TABLE)
    rail = next(m for m in piece.members if m.part == "rail")
    line = working_line(rail, piece.members)
    assert line.points(np.array([line.first, line.last]))[:, 1] == pytest.approx([40, 360])


def test_angle_runs_along_its_centroid() -> None:
    _, piece = made("  ledge: {stock: angle, path: [[0, 0, 0], [0, 0, 500]], legs: [right, back], ends: free}")
    line = working_line(piece.members[0], piece.members)
    centroid = piece.members[0].stock.section.centroid
    assert line.points(np.array([100.0]))[0] == pytest.approx([*centroid, 100])


def test_points_on_a_bend_lie_on_its_arc() -> None:
    _, piece = made("  hoop: {stock: tube, path: [[0, 0, 0], [0, 0, 500], [400, 0, 500]], radius: 100, ends: free}")
    line = working_line(piece.members[0], piece.members)
    assert len(line.bend_places) == 9
    points = line.points(line.bend_places)
    assert np.linalg.norm(points - [100, 0, 400], axis=1) == pytest.approx(100)
    assert line.curvature_radius(float(line.bend_places[4])) == 100
    assert line.curvature_radius(10.0) is None


def test_nearest_keeps_to_the_material() -> None:
    _, piece = made(TABLE)
    rail = next(m for m in piece.members if m.part == "rail")
    line = working_line(rail, piece.members)
    s, gap = line.nearest(np.array([20.0, 0.0, 600.0]))
    assert s == line.first
    assert gap == pytest.approx(40)
    s, gap = line.nearest(np.array([20.0, 200.0, 650.0]))
    assert s == pytest.approx(180)
    assert gap == pytest.approx(50)


def test_crossings_of_a_height() -> None:
    _, piece = made(TABLE)
    leg = next(m for m in piece.members if m.part == "leg")
    line = working_line(leg, piece.members)
    assert line.crossings(2, 450.0) == pytest.approx([450])
    assert line.crossings(2, 900.0) == []
    assert line.crossings(0, 20.0) == []
