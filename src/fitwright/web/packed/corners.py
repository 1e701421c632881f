"""Triangle corners with their normals, so that rounds look round and edges stay sharp."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from fitwright.piece.mesh import Mesh

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

CREASE = float(np.cos(np.radians(40.0)))


def corners(meshes: Sequence[Mesh]) -> tuple[Floats, Floats]:
    """Positions (3m, 3) [mm] and unit normals (3m, 3) of the corners of the meshes' triangles, one mesh after another.

    At each corner the normals of the faces round it are averaged by area, those beyond a crease of 40° left out.
    """
    firsts = np.cumsum([0, *(len(mesh.vertices) for mesh in meshes)])
    vertex = np.concatenate([mesh.faces.ravel() + first for mesh, first in zip(meshes, firsts, strict=False)])
    positions = np.vstack([mesh.vertices for mesh in meshes])[vertex]
    triangles = positions.reshape(-1, 3, 3)
    areas = np.cross(triangles[:, 1] - triangles[:, 0], triangles[:, 2] - triangles[:, 0])
    flat = _unit(areas)
    mine, theirs = _pairs_at_vertices(vertex)
    faces, others = mine // 3, theirs // 3
    near = np.einsum("ij,ij->i", flat[faces], flat[others]) > CREASE
    summed = np.zeros_like(positions)
    for axis in range(3):
        summed[:, axis] = np.bincount(mine[near], weights=areas[others[near], axis], minlength=len(positions))
    return positions, _unit(summed)


def _pairs_at_vertices(vertex: Ints) -> tuple[Ints, Ints]:
    """All pairs (p,), (p,) of corners that share a vertex, each with itself too; vertex: that of each corner (c,)."""
    order = np.argsort(vertex, kind="stable")
    _, counts = np.unique(vertex, return_counts=True)
    starts = np.cumsum(counts) - counts
    each = np.repeat(counts, counts)
    first = np.repeat(order, each)
    within = np.arange(len(first)) - np.repeat(np.cumsum(each) - each, each)
    second = order[np.repeat(np.repeat(starts, counts), each) + within]
    return first, second


def _unit(vectors: Floats) -> Floats:
    lengths = np.linalg.norm(vectors, axis=1, keepdims=True)
    return np.asarray(vectors / np.where(lengths > 0, lengths, 1.0))
