"""Round stays round, sharp stays sharp."""

from __future__ import annotations

import numpy as np

from fitwright.piece.mesh import Mesh
from fitwright.web.packed.corners import corners


def box() -> Mesh:
    vertices = np.array([[x, y, z] for z in (0.0, 1.0) for y in (0.0, 1.0) for x in (0.0, 1.0)])
    quads = [(0, 2, 3, 1), (4, 5, 7, 6), (0, 1, 5, 4), (2, 6, 7, 3), (0, 4, 6, 2), (1, 3, 7, 5)]
    faces = np.array([face for a, b, c, d in quads for face in ((a, b, c), (a, c, d))])
    return Mesh("A1", "box", "panel", vertices, faces, np.zeros((0, 2), dtype=np.int64))


def prism(sides: int) -> Mesh:
    turn = np.linspace(0, 2 * np.pi, sides, endpoint=False)
    ring = np.column_stack([np.cos(turn), np.sin(turn), np.zeros(sides)])
    here, beside = np.arange(sides), np.roll(np.arange(sides), -1)
    faces = np.vstack(
        [np.column_stack([here, beside, beside + sides]), np.column_stack([here, beside + sides, here + sides])]
    )
    vertices = np.vstack([ring, ring + np.array([0.0, 0.0, 1.0])])
    return Mesh("A1", "tube", "member", vertices, faces, np.zeros((0, 2), dtype=np.int64))


def test_a_box_keeps_its_flat_sides() -> None:
    _, normals = corners([box()])
    assert np.allclose(np.abs(normals).max(axis=1), 1.0)


def test_a_round_has_the_normals_of_its_circle() -> None:
    positions, normals = corners([prism(24)])
    outward = positions[:, :2] / np.linalg.norm(positions[:, :2], axis=1, keepdims=True)
    assert np.allclose(normals[:, :2], outward, atol=np.sin(np.radians(5.1)))


def test_an_edge_sharper_than_the_crease_stays() -> None:
    _, normals = corners([prism(6)])
    (first, second, third) = normals[:3]
    assert np.allclose(first, second)
    assert np.allclose(first, third)
