"""The format of a packed scene, and its writer.

A packed scene is, with all numbers little endian:

    4 bytes    "FWS1"
    uint32     length of the head in bytes, a multiple of 4
    head       JSON (UTF-8), padded with spaces
    float32    corners:  3 a corner, 3 corners a triangle [mm]
    int8       normals:  4 a corner: x, y, z in 127ths, and 0
    float32    edges:    6 a line, from one end to the other [mm]

The head gives `corners` and `edges` (how many of each there are), `low` and `high` of the piece [mm], and

    bodies: mark, name, kind, material, corners [first, count], edges [first, count], apart [x, y, z] in mm:
            where it goes when the piece is drawn apart
    lines:  what (walls, a neighbour, size), edges [first, count], for a size its label and where it stands
"""

from __future__ import annotations

import json
import struct
from collections.abc import Iterable, Sequence
from typing import Any

import numpy as np
from numpy.typing import NDArray

from fitwright.assess import Assessment
from fitwright.piece.mesh import Mesh
from fitwright.web.packed.corners import corners
from fitwright.web.packed.place import place_lines
from fitwright.web.packed.sizes import SizeLine, size_lines

MAGIC = b"FWS1"
APART = 0.6
Floats = NDArray[np.float64]
Json = dict[str, Any]


def packed_scene(assessment: Assessment, revision: str) -> bytes:
    """The piece, the place and the dimension lines as one packed scene."""
    piece = assessment.sketch.piece
    kinds = _materials(assessment)
    middle = (piece.envelope.low + piece.envelope.high) / 2
    positions, normals = corners(assessment.meshes)
    edges = _Edges()
    bodies, first = [], 0
    for mesh in assessment.meshes:
        count = 3 * len(mesh.faces)
        bodies.append(
            {
                "mark": mesh.mark,
                "name": mesh.name,
                "kind": mesh.kind,
                "material": kinds.get(mesh.name, "bought"),
                "corners": [first, count],
                "edges": edges.add(mesh.vertices[mesh.edges]),
                "apart": _rounded(APART * (_middle(mesh) - middle)),
            }
        )
        first += count
    lines: list[Json] = [{"what": name, "edges": edges.add(drawn)} for name, drawn in place_lines(assessment).items()]
    lines += _size_entries(size_lines(piece.envelope, assessment.job.style), edges)
    head = {
        "revision": revision,
        "corners": first,
        "edges": edges.count,
        "low": _rounded(piece.envelope.low),
        "high": _rounded(piece.envelope.high),
        "bodies": bodies,
        "lines": lines,
    }
    return _packed(head, [positions], [normals], edges.parts)


def packed_lines(lines: Floats, said: str, revision: str, **more: Any) -> bytes:
    """Lines (k, 2, 3) [mm] alone as a packed scene, with what they show in words; more: for the head."""
    edges = _Edges()
    drawn = {"what": "bent", "edges": edges.add(lines), "said": said}
    head = {"revision": revision, "corners": 0, "edges": edges.count, "bodies": [], "lines": [drawn], **more}
    return _packed(head, [], [], edges.parts)


def packed_sizes(sizes: Sequence[SizeLine], revision: str) -> bytes:
    """Dimension lines alone as a packed scene."""
    edges = _Edges()
    lines = _size_entries(sizes, edges)
    head = {"revision": revision, "corners": 0, "edges": edges.count, "bodies": [], "lines": lines}
    return _packed(head, [], [], edges.parts)


def _size_entries(sizes: Sequence[SizeLine], edges: _Edges) -> list[Json]:
    return [
        {"what": "size", "edges": edges.add(size.lines), "label": size.label, "at": _rounded(size.at)} for size in sizes
    ]


def _packed(head: Json, positions: list[Floats], normals: list[Floats], edges: list[Floats]) -> bytes:
    said = json.dumps(head, ensure_ascii=False, separators=(",", ":")).encode()
    said += b" " * (-len(said) % 4)
    turned = np.vstack([*normals, np.zeros((0, 3))])
    bytes4 = np.zeros((len(turned), 4), dtype=np.int8)
    bytes4[:, :3] = np.rint(127 * turned)
    return b"".join(
        [
            MAGIC,
            struct.pack("<I", len(said)),
            said,
            _floats(positions),
            bytes4.tobytes(),
            _floats([part.reshape(-1, 3) for part in edges]),
        ]
    )


class _Edges:
    """Lines gathered one after another."""

    def __init__(self) -> None:
        self.parts: list[Floats] = []
        self.count = 0

    def add(self, lines: Floats) -> list[int]:
        """Add lines (k, 2, 3) and give where they stand: [first, count]."""
        lines = np.asarray(lines, dtype=float).reshape(-1, 2, 3)
        self.parts.append(lines)
        self.count += len(lines)
        return [self.count - len(lines), len(lines)]


def _floats(parts: Iterable[Floats]) -> bytes:
    return np.vstack([*parts, np.zeros((0, 3))]).astype("<f4").tobytes()


def _materials(assessment: Assessment) -> dict[str, str]:
    piece = assessment.sketch.piece
    kinds = {member.name: member.stock.material.kind for member in piece.members}
    return kinds | {panel.name: panel.stock.material.kind for panel in piece.panels}


def _middle(mesh: Mesh) -> Floats:
    middle: Floats = (mesh.vertices.min(axis=0) + mesh.vertices.max(axis=0)) / 2
    return middle


def _rounded(point: Floats) -> list[float]:
    return [round(float(x), 2) + 0.0 for x in point]
