"""Convex outlines in a plane: hull, support, widths, what is cut off by a line."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]

SAME_MM = 1e-9
MANY = 60


def hull(points: Floats) -> Floats:
    """Corners (k, 2) of the convex hull, counterclockwise; two for points on a line, one for a single point.

    Source: A. M. Andrew, Another efficient algorithm for convex hulls in two dimensions, Information Processing
    Letters 9 (1979): the monotone chain.

    >>> hull(np.array([[0.0, 0], [2, 0], [1, 0.5], [2, 2], [0, 2]])).tolist()
    [[0.0, 0.0], [2.0, 0.0], [2.0, 2.0], [0.0, 2.0]]
    """
    if len(points) > MANY:
        points = outermost(points)
    ordered = sorted({(float(x), float(y)) for x, y in points.tolist()})
    if len(ordered) < 3:
        return np.array(ordered)
    lower, upper = _chain(ordered), _chain(ordered[::-1])
    return np.array(lower[:-1] + upper[:-1])


def outermost(points: Floats) -> Floats:
    """Those of many points (n, 2) or (n, 3) that are corners of their hull; all of them when they lie flat."""
    from scipy.spatial import ConvexHull, QhullError

    try:
        return np.asarray(points[ConvexHull(points).vertices])
    except QhullError:
        return points


def _chain(ordered: Sequence[tuple[float, float]]) -> list[tuple[float, float]]:
    found: list[tuple[float, float]] = []
    for point in ordered:
        while len(found) > 1 and _turn(found[-2], found[-1], point) <= SAME_MM:
            found.pop()
        found.append(point)
    return found


def _turn(a: tuple[float, float], b: tuple[float, float], c: tuple[float, float]) -> float:
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


def directions(angles: Floats) -> Floats:
    """Unit vectors (n, 2) at angles (n,) from +x [rad]."""
    return np.stack([np.cos(angles), np.sin(angles)], axis=-1)


def turned(points: Floats, angle: float) -> Floats:
    """Points (n, 2) turned counterclockwise about the origin [rad]."""
    cos, sin = np.cos(angle), np.sin(angle)
    return np.asarray(points @ np.array([[cos, sin], [-sin, cos]]))


def supports(points: Floats, angles: Floats) -> Floats:
    """How far points (k, 2) reach (n,) in directions at angles (n,) from +x [rad]: the support function."""
    return np.asarray((points @ directions(angles).T).max(axis=0))


def normals(corners: Floats) -> Floats:
    """Outward unit normals (k, 2) of a hull's edges; both sides of a line; none for a point."""
    edges = np.roll(corners, -1, axis=0) - corners
    lengths = np.hypot(edges[:, 0], edges[:, 1])
    edges = edges[lengths > SAME_MM] / lengths[lengths > SAME_MM, None]
    return np.stack([edges[:, 1], -edges[:, 0]], axis=-1)


def least_width(corners: Floats) -> tuple[float, float]:
    """Least width of a hull (k, 2) over all directions, and the direction [rad] across which it is measured.

    The least width stands square on an edge (rotating calipers).
    Source: M. E. Houle and G. T. Toussaint, Computing the width of a set, IEEE Trans. PAMI 10 (1988), theorem 1.

    >>> round(least_width(np.array([[0.0, 0], [3, 0], [3, 1], [0, 1]]))[0], 9)
    1.0
    """
    across = normals(corners)
    if not len(across):
        return 0.0, 0.0
    reach = corners @ across.T
    widths = reach.max(axis=0) - reach.min(axis=0)
    at = int(np.argmin(widths))
    return float(widths[at]), float(np.arctan2(across[at, 1], across[at, 0]))


def box_corners(low: Sequence[float], high: Sequence[float]) -> Floats:
    """Corners (4, 2) of an upright rectangle, counterclockwise."""
    return np.array([[low[0], low[1]], [high[0], low[1]], [high[0], high[1]], [low[0], high[1]]], dtype=float)
