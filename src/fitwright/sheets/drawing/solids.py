"""The bodies of a piece gathered for drawing: one list of faces, and of edges with the faces beside them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Protocol

import numpy as np
from numpy.typing import NDArray

from fitwright.errors import FitwrightError

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
Bools = NDArray[np.bool_]

SAME_POINT_MM = 1e-4
NO_FACE = -1


class SolidsError(FitwrightError, ValueError):
    """Meshes that cannot be drawn: none at all, or faces that name vertices which are not there."""


class Body(Protocol):
    """What a mesh must tell to be drawn; the piece's own meshes do."""

    @property
    def mark(self) -> str:
        """Which part it is."""
        ...

    @property
    def vertices(self) -> NDArray[np.float64]:
        """Corners (n, 3) [mm]."""
        ...

    @property
    def faces(self) -> NDArray[np.int64]:
        """Triangles (m, 3), outward."""
        ...

    @property
    def edges(self) -> NDArray[np.int64]:
        """Sharp edges to be drawn (k, 2)."""
        ...


@dataclass(frozen=True)
class Solids:
    """Every face and edge of the piece, independent of the view.

    vertices (n, 3) [mm]; faces (m, 3) of vertex numbers, outward; normals (m, 3) unit; face_body (m,);
    edges (k, 2) of vertex numbers; edge_faces (k, 2) the faces on either side, -1 for none; edge_sharp (k,) to be
    drawn wherever it is seen; edge_body (k,); marks: one for each body.
    """

    vertices: Floats
    faces: Ints
    normals: Floats
    face_body: Ints
    edges: Ints
    edge_faces: Ints
    edge_sharp: Bools
    edge_body: Ints
    marks: tuple[str, ...]


def gather(meshes: Sequence[Body]) -> Solids:
    """The bodies' faces and edges in one list.

    Raises SolidsError when there is nothing to draw or a face names a vertex that does not exist.
    """
    if not meshes:
        raise SolidsError("no bodies to draw: give at least one mesh")
    parts = [_welded(mesh) for mesh in meshes]
    starts = np.cumsum([0, *(len(vertices) for vertices, _, _ in parts)])
    vertices = np.concatenate([vertices for vertices, _, _ in parts])
    faces = np.concatenate([faces + start for (_, faces, _), start in zip(parts, starts, strict=False)])
    sharp = np.concatenate([edges + start for (_, _, edges), start in zip(parts, starts, strict=False)])
    vertex_body = np.repeat(np.arange(len(parts)), np.diff(starts))
    normals, real = _normals(vertices, faces)
    faces, normals = faces[real], normals[real]
    edges, edge_faces, edge_sharp = _edges(len(vertices), faces, sharp)
    marks = tuple(mesh.mark for mesh in meshes)
    body = vertex_body[edges[:, 0]]
    return Solids(vertices, faces, normals, vertex_body[faces[:, 0]], edges, edge_faces, edge_sharp, body, marks)


def _welded(mesh: Body) -> tuple[Floats, Ints, Ints]:
    """Vertices, faces and edges of one body with vertices at the same place made one, so that faces know neighbours."""
    vertices = np.asarray(mesh.vertices, dtype=np.float64).reshape(-1, 3)
    faces = np.asarray(mesh.faces, dtype=np.int64).reshape(-1, 3)
    edges = np.asarray(mesh.edges, dtype=np.int64).reshape(-1, 2)
    for name, index in (("face", faces), ("edge", edges)):
        if index.size and (index.min() < 0 or index.max() >= len(vertices)):
            raise SolidsError(f"{mesh.mark}: a {name} names vertex {index.max()} of {len(vertices)}")
    if not len(faces):
        raise SolidsError(f"{mesh.mark} has no faces to draw")
    grid = np.round((vertices - vertices.min(axis=0)) / SAME_POINT_MM).astype(np.int64)
    spans = grid.max(axis=0) + 1
    key = (grid[:, 0] * spans[1] + grid[:, 1]) * spans[2] + grid[:, 2]
    if float(np.prod(spans.astype(np.float64))) > 2.0**62:
        key = np.unique(grid, axis=0, return_inverse=True)[1].reshape(-1)
    _, first, place = np.unique(key, return_index=True, return_inverse=True)
    edges = place[edges]
    return vertices[first], place[faces], edges[edges[:, 0] != edges[:, 1]]


def _normals(vertices: Floats, faces: Ints) -> tuple[Floats, Bools]:
    """Unit normals (m, 3) and which faces have an area at all (m,)."""
    a, b, c = (vertices[faces[:, i]] for i in range(3))
    cross = np.cross(b - a, c - a)
    size = np.linalg.norm(cross, axis=1)
    longest = np.maximum.reduce([((q - p) ** 2).sum(axis=1) for p, q in ((a, b), (b, c), (c, a))])
    return cross / np.maximum(size, 1e-300)[:, None], size > 1e-9 * np.maximum(longest, 1e-9)


def _edges(count: int, faces: Ints, sharp: Ints) -> tuple[Ints, Ints, Bools]:
    """Edges (k, 2) between faces and sharp ones without, the faces beside each (k, 2), and which are sharp (k,)."""
    ends = faces[:, [0, 1, 1, 2, 2, 0]].reshape(-1, 2)
    key = ends.min(axis=1) * count + ends.max(axis=1)
    order = np.argsort(key, kind="stable")
    owner = np.repeat(np.arange(len(faces)), 3)[order]
    unique, first, times = np.unique(key[order], return_index=True, return_counts=True)
    beside = np.stack([owner[first], np.where(times > 1, owner[first + np.maximum(times, 1) - 1], NO_FACE)], axis=1)
    asked = np.unique(sharp.min(axis=1) * count + sharp.max(axis=1)) if len(sharp) else np.empty(0, np.int64)
    loose = asked[~np.isin(asked, unique)]
    keys = np.concatenate([unique, loose])
    beside = np.concatenate([beside, np.full((len(loose), 2), NO_FACE)])
    return np.stack([keys // count, keys % count], axis=1), beside, np.isin(keys, asked)
