"""Gathering meshes."""

from __future__ import annotations

import numpy as np
import pytest

from fitwright.sheets.drawing.solids import SolidsError, gather
from tests.unit.sheets.drawing.shapes import Shape, box, tube


def test_a_box_has_twelve_sharp_edges_and_six_diagonals() -> None:
    solids = gather([box("A", (0, 0, 0), (1, 2, 3))])
    assert solids.edge_sharp.sum() == 12
    assert (~solids.edge_sharp).sum() == 6
    assert (solids.edge_faces >= 0).all()


def test_normals_point_outwards() -> None:
    solids = gather([box("A", (-1, -1, -1), (1, 1, 1))])
    middle = solids.vertices[solids.faces].mean(axis=1)
    assert ((middle * solids.normals).sum(axis=1) > 0).all()


def test_vertices_that_lie_together_are_one() -> None:
    whole = box("A", (0, 0, 0), (10, 10, 10))
    loose = Shape("A", whole.vertices[whole.faces].reshape(-1, 3), np.arange(36).reshape(-1, 3), np.empty((0, 2), int))
    solids = gather([loose])
    assert len(solids.vertices) == 8
    assert (solids.edge_faces >= 0).all()


def test_bodies_keep_apart_and_keep_their_marks() -> None:
    solids = gather([box("A", (0, 0, 0), (1, 1, 1)), tube("B", np.array([[5.0, 0, 0], [5, 0, 9]]))])
    assert solids.marks == ("A", "B")
    assert set(solids.face_body) == {0, 1}
    assert (solids.face_body[solids.edge_faces[:, 0]] == solids.edge_body).all()


def test_far_away_bodies_are_welded_too() -> None:
    whole = box("A", (0, 0, 0), (1e6, 1e6, 1e6))
    assert len(gather([whole]).vertices) == 8


def test_nothing_to_draw_is_refused() -> None:
    with pytest.raises(SolidsError, match="no bodies"):
        gather([])
    with pytest.raises(SolidsError, match="A9 has no faces"):
        gather([Shape("A9", np.zeros((3, 3)), np.empty((0, 3), int), np.empty((0, 2), int))])


def test_a_face_of_a_missing_vertex_is_refused() -> None:
    with pytest.raises(SolidsError, match="names vertex 7 of 3"):
        gather([Shape("A", np.eye(3), np.array([[0, 1, 7]]), np.empty((0, 2), int))])
