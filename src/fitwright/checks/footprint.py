"""The support polygon: how far it reaches in every direction when casters stand at their worst."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from fitwright.checks.standing import Contact

Floats = NDArray[np.float64]

STEP_DEG = 2


def hull(points: Floats) -> Floats:
    """Corners (m, 2) of the convex hull of points (k, 2), counterclockwise.

    Source: Andrew's monotone chain, Information Processing Letters 9(5), 1979.

    >>> hull(np.array([[0.0, 0], [2, 0], [1, 1], [2, 2], [0, 2]])).tolist()
    [[0.0, 0.0], [2.0, 0.0], [2.0, 2.0], [0.0, 2.0]]
    """
    ordered = sorted(set(map(tuple, np.round(points, 6).tolist())))
    if len(ordered) < 3:
        return np.array(ordered)
    lower, upper = _chain(ordered), _chain(ordered[::-1])
    return np.array(lower[:-1] + upper[:-1])


def _chain(points: list[tuple[float, ...]]) -> list[tuple[float, ...]]:
    kept: list[tuple[float, ...]] = []
    for x, y in points:
        while len(kept) > 1 and _turn(kept[-2], kept[-1], (x, y)) <= 0:
            kept.pop()
        kept.append((x, y))
    return kept


def _turn(a: tuple[float, ...], b: tuple[float, ...], c: tuple[float, ...]) -> float:
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


def directions(on: Sequence[Contact]) -> Floats:
    """Unit vectors (d, 2) all round, and square to every edge of the support polygon, where it is nearest."""
    turns = np.radians(np.arange(0, 360, STEP_DEG))
    around = np.column_stack([np.cos(turns), np.sin(turns)])
    corners = hull(np.array([contact.point[:2] for contact in on]))
    if len(corners) < 2:
        return around
    edges = np.roll(corners, -1, axis=0) - corners
    normals = np.column_stack([edges[:, 1], -edges[:, 0]]) / np.linalg.norm(edges, axis=1)[:, None]
    return np.vstack([around, normals, -normals] if len(corners) == 2 else [around, normals])


def reach(on: Sequence[Contact], toward: Floats) -> Floats:
    """How far the support reaches (d,) toward each unit vector (d, 2) [mm] from the origin.

    A swivel caster is taken with its wheel swung away from that direction by its lead.
    Holds for contacts that cannot pull. Source: statics; the support function of a convex polygon.
    """
    points = np.array([contact.point[:2] for contact in on])
    swings = np.array([contact.swing for contact in on])
    return np.asarray((toward @ points.T - swings).max(axis=1))


def words(toward: Floats) -> str:
    """A direction on plan (2,) in words: `front`, `left`, `back right`."""
    x, y = float(toward[0]), float(toward[1])
    depth = "" if abs(y) < 0.38 else ("back" if y > 0 else "front")
    side = "" if abs(x) < 0.38 else ("right" if x > 0 else "left")
    return f"{depth} {side}".strip()
