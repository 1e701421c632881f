"""The piece laid over the picture: its edges and outlines through the solved camera, as lines on the picture."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from fitwright.piece import Piece
from fitwright.piece.mesh import Mesh, meshes
from fitwright.place.photo.facing import SIGNS
from fitwright.place.photo.mistakes import MarksError
from fitwright.place.photo.solving import Solved

Floats = NDArray[np.float64]

BENT_INTO = 8
"""Pieces into which a straight line is cut, for the lens bows it."""
NEAREST_MM = 50.0
OUTSIDE = 0.5
"""How far past the corners of the picture lines are kept, in half diagonals."""


@dataclass(frozen=True)
class Standing:
    """How the piece stands before the camera: turn (3, 3) from piece to marked directions, shift (3,) [mm].

    off: how far apart marked spots and their places on the piece are (root mean square) [mm].
    """

    turn: Floats
    shift: Floats
    off: float


def standing(solved: Solved, grown: float = 1.0) -> Standing:
    """How the piece stands, from spots whose place on the piece is said; grown: by how much it is made larger.

    Edges do not say which way along them is plus: of the four ways that keep right-handed axes the one that fits the
    spots best is taken, and with one spot alone that in which x goes right, y away and z up.
    Raises MarksError when no spot has its place said.
    """
    scene, state = solved.estimate.state.unknowns.scene, solved.estimate.state
    said = [
        (scene.at(name), spot.place) for name, spot in solved.photo.spots.items() if spot.place and name in scene.names
    ]
    if not said:
        raise MarksError(
            "to lay the piece over the photo, say for one spot or more where it is on the piece: is: [x, y, z]"
        )
    seen = state.points[[number for number, _ in said]]
    places = grown * np.array([place for _, place in said], dtype=float)
    return min((_stood(sign, seen, places) for sign in SIGNS), key=lambda one: round(one.off, 6))


def laid_over(solved: Solved, lines: Iterable[Floats], stands: Standing | None = None) -> list[Floats]:
    """Lines of the piece, each (k, 3) [mm], as lines on the picture, each (m, 2) [px].

    What lies behind the camera or far outside the picture is left out, so that one line may become several or none.
    """
    stands = stands or standing(solved)
    return [part for line in lines for part in _on_picture(solved, _bent(np.asarray(line, dtype=float)[None]), stands)]


def piece_over_photo(solved: Solved, piece: Piece, grown: float = 1.0) -> list[Floats]:
    """Edges and outlines of every part, as lines (m, 2) on the picture [px]; hidden ones are there too.

    grown: the piece is made so much larger, to set its proportions against those of the old one.
    """
    stands = standing(solved, grown)
    eye = -(stands.turn.T @ stands.shift) / grown
    lines = np.concatenate([_outlines(mesh, eye) for mesh in meshes(piece)])
    return _on_picture(solved, _bent(grown * lines), stands)


def _stood(turn: Floats, seen: Floats, places: Floats) -> Standing:
    turned = places @ turn.T
    shift = (seen - turned).mean(axis=0)
    return Standing(turn, shift, float(np.sqrt(((turned + shift - seen) ** 2).sum(axis=1).mean())))


def _bent(lines: Floats) -> Floats:
    """Lines (k, n, 3) with places put in between their corners."""
    steps = (np.arange(BENT_INTO) / BENT_INTO)[:, None]
    between = lines[:, :-1, None] + steps * (lines[:, 1:] - lines[:, :-1])[:, :, None]
    return np.concatenate([between.reshape(len(lines), -1, 3), lines[:, -1:]], axis=1)


def _on_picture(solved: Solved, lines: Floats, stands: Standing) -> list[Floats]:
    state = solved.estimate.state
    seen = (lines.reshape(-1, 3) @ stands.turn.T + stands.shift) @ state.rotation.T
    seen[seen[:, 2] < NEAREST_MM] = np.nan
    drawn = state.lens.drawn(seen)
    middle, half = np.array(solved.size) / 2, state.lens.half_diagonal
    shown = np.isfinite(drawn).all(axis=1) & (
        np.linalg.norm(np.nan_to_num(drawn) - middle, axis=1) < (1 + OUTSIDE) * half
    )
    drawn, shown = drawn.reshape(*lines.shape[:2], 2), shown.reshape(lines.shape[:2])
    return [line[run] for line, good in zip(drawn, shown, strict=True) for run in _runs(good)]


def _runs(shown: NDArray[np.bool_]) -> Sequence[slice]:
    """Stretches of two or more that are shown."""
    if shown.all():
        return [slice(0, len(shown))]
    edges = np.flatnonzero(np.diff(np.concatenate([[False], shown, [False]]).astype(np.int8)))
    return [slice(int(a), int(b)) for a, b in zip(edges[::2], edges[1::2], strict=True) if b - a > 1]


def _outlines(mesh: Mesh, eye: Floats) -> Floats:
    """Sharp edges, and edges between a face that is seen from a point and one that is not (k, 2, 3) [mm]."""
    corners = mesh.vertices[mesh.faces]
    normals = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    toward = np.einsum("ij,ij->i", normals, eye - corners[:, 0]) > 0
    sides = np.sort(mesh.faces[:, [[0, 1], [1, 2], [2, 0]]].reshape(-1, 2), axis=1)
    facing = np.repeat(toward, 3)
    pairs, which = np.unique(sides, axis=0, return_inverse=True)
    seen = np.bincount(which.ravel(), weights=facing, minlength=len(pairs))
    count = np.bincount(which.ravel(), minlength=len(pairs))
    turning = pairs[(seen > 0) & (seen < count)]
    chosen = np.unique(np.vstack([turning, np.sort(mesh.edges, axis=1).reshape(-1, 2)]), axis=0)
    found: Floats = mesh.vertices[chosen]
    return found
