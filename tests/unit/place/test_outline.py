from __future__ import annotations

import numpy as np
import pytest

from fitwright.job import parse_job
from fitwright.piece import Piece, build
from fitwright.place.outline import piece_edges, piece_skin, split_at


@pytest.fixture(scope="module")
def piece() -> Piece:
    """A bent tube, a sheet, and a screw that is nowhere."""
    return build(
        parse_job("""
job: {name: trial, unit: mm}
stock: {tube: round tube 30 x 2, ply: plywood 18 birch}
parts:
  hoop: {stock: tube, outside: [[0, 0, 0], [0, 0, 600], [500, 0, 600], [500, 0, 0]], radius: 100}
  board: {sheet: ply, from: [0, 100, 0], to: [500, 400, 0], grows: up}
  screw: {screw: 4 x 40, at: [250, 200, 18]}
""")
    )


def test_triangles_reach_as_far_as_edges(piece: Piece) -> None:
    edges, skin = piece_edges(piece).reshape(-1, 3), piece_skin(piece)
    assert skin.low.min(axis=0) == pytest.approx(edges.min(axis=0), abs=0.2)
    assert skin.high.max(axis=0) == pytest.approx(edges.max(axis=0), abs=0.2)


def test_triangles_cover_each_part(piece: Piece) -> None:
    """The area of a board is that of its box; that of the tube is its girth along the line, and its two ends."""
    skin = piece_skin(piece)
    assert skin.names == ("hoop", "board")
    corners = skin.triangles
    areas = np.linalg.norm(np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0]), axis=1) / 2
    assert areas[skin.owners == 1].sum() == pytest.approx(2 * (500 * 300 + 500 * 18 + 300 * 18))
    centreline = 2 * (600 - 15 - 100) + (470 - 200) + np.pi * 100
    tube = np.pi * 30 * centreline + 2 * np.pi * 15**2
    assert areas[skin.owners == 0].sum() == pytest.approx(tube, rel=0.01)


def test_moved_turned_and_left_out(piece: Piece) -> None:
    skin = piece_skin(piece)
    moved = skin.moved(np.eye(3), np.array([10.0, 0.0, 5.0]))
    assert moved.low.min(axis=0) == pytest.approx(skin.low.min(axis=0) + np.array([10.0, 0.0, 5.0]))
    assert set(skin.without(frozenset({"board"})).owners.tolist()) == {0}
    near = skin.near(np.array([200.0, 150.0, 0.0]), np.array([300.0, 250.0, 10.0]))
    assert set(near.owners.tolist()) == {1}


def test_edges_are_split_where_a_wall_may_bend() -> None:
    edges = np.array([[[0.0, 0.0, 0.0], [10.0, 0.0, 100.0]]])
    points = split_at(edges, 2, np.array([50.0, 200.0]))
    assert points == pytest.approx(np.array([[0, 0, 0], [10, 0, 100], [5, 0, 50]]))
