"""Turns of the camera as rotation vectors, and how a turn changes with them."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]

SMALL_RAD = 1e-6


def crossing(vectors: Floats) -> Floats:
    """Matrices (..., 3, 3) that give the cross product with vectors (..., 3)."""
    matrices = np.zeros((*vectors.shape[:-1], 3, 3))
    x, y, z = vectors[..., 0], vectors[..., 1], vectors[..., 2]
    matrices[..., 0, 1], matrices[..., 0, 2], matrices[..., 1, 2] = -z, y, -x
    matrices[..., 1, 0], matrices[..., 2, 0], matrices[..., 2, 1] = z, -y, x
    return matrices


def turn(vector: Floats) -> Floats:
    """The rotation (3, 3) about a vector (3,) by its length [rad] (Rodrigues)."""
    angle = float(np.linalg.norm(vector))
    cross = crossing(vector)
    if angle < SMALL_RAD:
        return np.asarray(np.eye(3) + cross + cross @ cross / 2)
    return np.asarray(np.eye(3) + np.sin(angle) / angle * cross + (1 - np.cos(angle)) / angle**2 * cross @ cross)


def turn_rate(vector: Floats) -> Floats:
    """Matrix (3, 3) from a small change of the vector to the small turn that it adds in front.

    Source: the left Jacobian of SO(3), T. Barfoot, State Estimation for Robotics, 2017, equation 7.77.
    """
    angle = float(np.linalg.norm(vector))
    cross = crossing(vector)
    if angle < SMALL_RAD:
        return np.asarray(np.eye(3) + cross / 2)
    once, twice = (1 - np.cos(angle)) / angle**2, (angle - np.sin(angle)) / angle**3
    return np.asarray(np.eye(3) + once * cross + twice * cross @ cross)
