"""Bodies as triangles: boxes, turned and swept bodies, hanging cloth."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
Corner = tuple[float, float, float]

CREASE_RAD = np.radians(50)


@dataclass(frozen=True)
class Body:
    """Corners (m, 3, 3) [mm] of triangles, a normal at each corner (m, 3, 3), and the name of what it is made of."""

    corners: Floats
    normals: Floats
    surface: str

    def moved(self, x: float, y: float, z: float, turn: float = 0.0) -> Body:
        """Turned about the upright through its origin [rad], then moved [mm]."""
        c, s = np.cos(turn), np.sin(turn)
        turned = np.array([[c, -s, 0.0], [s, c, 0.0], [0.0, 0.0, 1.0]])
        return Body(self.corners @ turned.T + [x, y, z], self.normals @ turned.T, self.surface)


def body(vertices: Floats, faces: Ints, surface: str) -> Body:
    """Triangles with normals smoothed over edges that are no creases."""
    corners = vertices[faces]
    flat = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    area = np.linalg.norm(flat, axis=1, keepdims=True)
    good = area[:, 0] > 1e-9
    corners, faces, flat = corners[good], faces[good], flat[good]
    unit = flat / area[good]
    _, at = np.unique(np.round(vertices, 3), axis=0, return_inverse=True)
    keys = at.ravel()[faces]
    order = np.argsort(keys.ravel(), kind="stable")
    begins = np.searchsorted(keys.ravel()[order], np.arange(keys.max() + 2))
    normals = np.empty_like(corners)
    for face in range(len(faces)):
        for k in range(3):
            around = order[begins[keys[face, k]] : begins[keys[face, k] + 1]] // 3
            near = around[unit[around] @ unit[face] > np.cos(CREASE_RAD)]
            total = flat[near].sum(axis=0)
            normals[face, k] = total / max(float(np.linalg.norm(total)), 1e-12)
    return Body(corners, normals, surface)


def box(low: Corner, high: Corner, surface: str) -> Body:
    """A box between two corners."""
    at = np.array(
        [[(low, high)[i][0], (low, high)[j][1], (low, high)[k][2]] for k in (0, 1) for j in (0, 1) for i in (0, 1)]
    )
    quads = [(0, 2, 3, 1), (4, 5, 7, 6), (0, 1, 5, 4), (2, 6, 7, 3), (0, 4, 6, 2), (1, 3, 7, 5)]
    return body(at, _split(quads), surface)


def sheet(place: Callable[[Floats, Floats], Floats], across: int, along: int, surface: str) -> Body:
    """A surface over u and v from 0 to 1: place gives (n, 3) for (n,), (n,)."""
    u, v = (grid.ravel() for grid in np.meshgrid(np.linspace(0, 1, across), np.linspace(0, 1, along)))
    quads = [
        (j * across + i, j * across + i + 1, (j + 1) * across + i + 1, (j + 1) * across + i)
        for j in range(along - 1)
        for i in range(across - 1)
    ]
    return body(place(u, v), _split(quads), surface)


def turned(profile: Sequence[tuple[float, float]], surface: str, sides: int = 32) -> Body:
    """A profile of (radius, height) turned about the upright."""
    radii, heights = np.array(profile, dtype=float).T

    def place(u: Floats, v: Floats) -> Floats:
        at = v * (len(radii) - 1)
        radius, height = np.interp(at, np.arange(len(radii)), radii), np.interp(at, np.arange(len(radii)), heights)
        return np.column_stack([radius * np.cos(2 * np.pi * u), radius * np.sin(2 * np.pi * u), height])

    return sheet(place, sides + 1, len(radii), surface)


def rope(path: Floats, radius: float, surface: str, sides: int = 10) -> Body:
    """A round body along a path (n, 3)."""
    toward = np.gradient(path, axis=0)
    toward /= np.linalg.norm(toward, axis=1, keepdims=True)
    aside = np.cross(toward, np.array([0.3, 0.2, 0.93]))
    aside /= np.linalg.norm(aside, axis=1, keepdims=True)
    third = np.cross(toward, aside)

    def place(u: Floats, v: Floats) -> Floats:
        k = np.round(v * (len(path) - 1)).astype(int)
        c, s = np.cos(2 * np.pi * u)[:, None], np.sin(2 * np.pi * u)[:, None]
        return np.asarray(path[k] + radius * (c * aside[k] + s * third[k]))

    return sheet(place, sides + 1, len(path), surface)


def _split(quads: Sequence[tuple[int, int, int, int]]) -> Ints:
    return np.array([t for a, b, c, d in quads for t in ((a, b, c), (a, c, d))], dtype=np.int64)
