"""A packed scene read back by its own description."""

from __future__ import annotations

import json
import struct
from typing import Any

import numpy as np
import pytest

from fitwright.web.packed import packed_bent, packed_scene
from tests.demos import NAMES, assessed


def read(packed: bytes) -> tuple[dict[str, Any], Any, Any, Any]:
    """Head, corners (c, 3), normals (c, 4), edges (e, 2, 3)."""
    assert packed[:4] == b"FWS1"
    (length,) = struct.unpack("<I", packed[4:8])
    assert length % 4 == 0
    head = json.loads(packed[8 : 8 + length])
    at = 8 + length
    corners = np.frombuffer(packed, "<f4", head["corners"] * 3, at).reshape(-1, 3)
    at += corners.nbytes
    normals = np.frombuffer(packed, np.int8, head["corners"] * 4, at).reshape(-1, 4)
    at += normals.nbytes
    edges = np.frombuffer(packed, "<f4", head["edges"] * 6, at).reshape(-1, 2, 3)
    assert at + edges.nbytes == len(packed)
    return head, corners, normals, edges


@pytest.mark.parametrize("name", NAMES)
def test_a_scene_holds_every_body_once(name: str) -> None:
    assessment = assessed(name)
    head, corners, normals, _ = read(packed_scene(assessment, "r"))
    assert [body["name"] for body in head["bodies"]] == [mesh.name for mesh in assessment.meshes]
    assert sum(body["corners"][1] for body in head["bodies"]) == head["corners"]
    for body, mesh in zip(head["bodies"], assessment.meshes, strict=True):
        first, count = body["corners"]
        part = corners[first : first + count]
        assert np.allclose(part.min(axis=0), mesh.vertices[mesh.faces].reshape(-1, 3).min(axis=0), atol=1e-3)
    lengths = np.linalg.norm(normals[:, :3].astype(float), axis=1)
    assert np.all(np.abs(lengths - 127) < 2)


def test_normals_point_the_way_their_triangle_does() -> None:
    _, corners, normals, _ = read(packed_scene(assessed("drying-rack"), "r"))
    triangles = corners.reshape(-1, 3, 3).astype(float)
    flat = np.cross(triangles[:, 1] - triangles[:, 0], triangles[:, 2] - triangles[:, 0])
    mean = normals[:, :3].astype(float).reshape(-1, 3, 3).mean(axis=1)
    sizes = np.linalg.norm(flat, axis=1)
    aligned = np.einsum("ij,ij->i", flat, mean) / np.maximum(sizes * np.linalg.norm(mean, axis=1), 1e-12)
    assert np.all(aligned[sizes > 1e-3] > np.cos(np.radians(41)))


def test_sizes_and_walls_are_lines_of_the_scene() -> None:
    head, _, _, edges = read(packed_scene(assessed("drying-rack"), "r"))
    said = {line["label"] for line in head["lines"] if line["what"] == "size"}
    assert any(label.endswith("high") for label in said)
    walls = next(line for line in head["lines"] if line["what"] == "walls")
    first, count = walls["edges"]
    drawn = edges[first : first + count].reshape(-1, 3)
    assert drawn[:, 0].min() < head["low"][0]
    assert drawn[:, 0].max() > head["high"][0]


def test_the_piece_under_load_says_how_much_it_is_exaggerated() -> None:
    head, corners, _, edges = read(packed_bent(assessed("drying-rack"), "r"))
    assert len(corners) == 0
    assert len(edges) > 20
    assert "times as much" in head["lines"][0]["said"]
    assert np.isfinite(edges).all()
