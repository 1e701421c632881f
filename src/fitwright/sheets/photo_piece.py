"""The piece as the camera of a photo would see it: hidden edges removed, drawn through the lens."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from fitwright.piece import Piece
from fitwright.piece.mesh import Mesh, meshes
from fitwright.place.photo import Solved, piece_over_photo, standing
from fitwright.place.photo.overlay import Standing
from fitwright.sheets.drawing.directions import TOP
from fitwright.sheets.drawing.hidden import look, visible
from fitwright.sheets.drawing.lines import tidy
from fitwright.sheets.drawing.solids import gather

Floats = NDArray[np.float64]

NEAREST_MM = 100.0
LONGEST_MM = 120.0
"""A straight line longer than this is drawn in parts, for the lens bows it."""


@dataclass(frozen=True)
class _Squeezed:
    """A view in perspective made one in parallel: places (right, up, nearer) at a distance [mm].

    With x f / z, y f / z and f^2 / z for x, y and z straight lines stay straight and planes plane, so what hides what
    is found as in a parallel view; near the distance lengths keep their size in all three.
    Source: the perspective map of a pin-hole camera is a projective map of space; common practice.
    """

    turn: Floats
    shift: Floats
    away: float

    def __call__(self, places: Floats) -> Floats:
        seen = places @ self.turn.T + self.shift
        deep = np.maximum(seen[:, 2:], 1e-6)
        return np.column_stack([seen[:, :2] * [1, -1] * self.away / deep, self.away**2 / deep])

    def rays(self, flat: Floats) -> Floats:
        """Rays of the camera (n, 3) through places right and up (n, 2)."""
        return np.column_stack([flat * [1, -1] / self.away, np.ones(len(flat))])


def piece_seen(solved: Solved, piece: Piece, grown: float = 1.0) -> list[Floats]:
    """Lines (k, 2) [px] of what is seen of the piece, made `grown` times as large.

    Raises MarksError when no spot says where it is on the piece. Holds for a piece all before the camera; of one that
    reaches behind it all edges are given.
    """
    bodies, stands = meshes(piece), standing(solved, grown)
    squeeze = _squeeze(solved, stands, bodies, grown)
    if squeeze is None:
        return piece_over_photo(solved, piece, grown)
    flat = [replace(mesh, vertices=squeeze(grown * mesh.vertices)) for mesh in bodies]
    lines = tidy(visible(look(gather(flat), TOP)).points)
    return _through_the_lens(solved, squeeze, lines)


def _squeeze(solved: Solved, stands: Standing, bodies: tuple[Mesh, ...], grown: float) -> _Squeezed | None:
    """None for a piece that reaches behind the camera."""
    rotation = solved.estimate.state.rotation
    turn, shift = rotation @ stands.turn, rotation @ stands.shift
    deep = np.concatenate([grown * mesh.vertices for mesh in bodies]) @ turn[2] + shift[2]
    return _Squeezed(turn, shift, float(np.median(deep))) if deep.min() > NEAREST_MM else None


def _through_the_lens(solved: Solved, squeeze: _Squeezed, lines: tuple[Floats, ...]) -> list[Floats]:
    parted = [_parted(line) for line in lines]
    drawn = solved.estimate.state.lens.drawn(squeeze.rays(np.concatenate(parted)))
    return np.split(drawn, np.cumsum([len(line) for line in parted])[:-1])


def _parted(line: Floats) -> Floats:
    """A line (k, 2) with places put in where its corners are far apart."""
    steps = np.maximum(np.ceil(np.linalg.norm(np.diff(line, axis=0), axis=1) / LONGEST_MM).astype(int), 1)
    if steps.max() == 1:
        return line
    at = np.concatenate([k + np.arange(n) / n for k, n in enumerate(steps)] + [[len(line) - 1.0]])
    return np.column_stack([np.interp(at, np.arange(len(line)), line[:, axis]) for axis in (0, 1)])
