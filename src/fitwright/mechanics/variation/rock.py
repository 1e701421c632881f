"""Rock: how far a foot is off the floor when the piece stands on three of them."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import combinations

import numpy as np
from numpy.typing import NDArray

from fitwright.mechanics.model import Floats

EDGE = 1e-6
Numbers = NDArray[np.float32] | NDArray[np.float64]


def stances(plan: Floats, centre: Floats) -> list[tuple[tuple[int, ...], Floats]]:
    """Every three feet on which the piece can stand, with (n, n) how high all feet are over their plane.

    plan: (n, 2) of the feet, centre: (2,) of the mass [mm]. The three must have the mass between them or on their edge,
    as on either diagonal of four feet round a middle.
    Source: barycentric coordinates.
    """
    found: list[tuple[tuple[int, ...], Floats]] = []
    for three in combinations(range(len(plan)), 3):
        corners = np.column_stack([plan[list(three)], np.ones(3)])
        if abs(np.linalg.det(corners)) < 1e-6 * np.ptp(plan) ** 2:
            continue
        share = np.column_stack([plan, np.ones(len(plan))]) @ np.linalg.inv(corners)
        if (np.append(centre, 1.0) @ np.linalg.inv(corners) < -EDGE).any():
            continue
        over = np.eye(len(plan))
        over[:, list(three)] -= share
        over[list(three)] = 0.0
        found.append((three, over))
    return found


def rock(heights: Numbers, possible: Sequence[tuple[tuple[int, ...], Floats]]) -> Numbers:
    """(b,) how far the highest foot is off the floor [mm] in builds with feet at heights (b, n).

    The piece stands on the three feet that leave no other below them; where two stances are possible, as on either
    diagonal, the larger gap counts. No stance at all (fewer than three feet, or the mass outside them): 0.
    Holds for a level floor and an unloaded piece; its weight closes part of the gap of a limber frame.
    Source: plane through three points; for a rectangle |z0 - z1 + z2 - z3|.

    >>> square = np.array([[0.0, 0], [1, 0], [1, 1], [0, 1]])
    >>> rock(np.array([[0, 0.06, 0.02, -0.03]]), stances(square, np.array([0.5, 0.5]))).round(6).tolist()
    [0.01]
    """
    worst = np.zeros(len(heights), dtype=heights.dtype)
    tiny = 1e-4
    for three, over in possible:
        others = [foot for foot in range(heights.shape[1]) if foot not in three]
        if not others:
            continue
        gaps = heights @ over[others].T.astype(heights.dtype)
        standing = gaps.min(axis=1) >= -tiny
        np.maximum(worst, np.where(standing, gaps.max(axis=1), 0), out=worst)
    return worst
