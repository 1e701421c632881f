"""Products of single vectors: numpy's own are made for long arrays and slow on three numbers."""

from __future__ import annotations

from math import sqrt

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]

UP = np.array([0.0, 0.0, 1.0])


def cross(first: Floats, second: Floats) -> Floats:
    """Cross product (3,) of two vectors (3,).

    >>> cross(np.array([1.0, 0.0, 0.0]), np.array([0.0, 1.0, 0.0]))
    array([0., 0., 1.])
    """
    a, b, c = first.tolist()
    x, y, z = second.tolist()
    return np.array([b * z - c * y, c * x - a * z, a * y - b * x])


def size(vector: Floats) -> float:
    """Length of a vector (3,)."""
    x, y, z = vector.tolist()
    return sqrt(x * x + y * y + z * z)


def unit(vector: Floats) -> Floats:
    """The vector (3,) made one long; it must not be zero."""
    return vector / size(vector)
