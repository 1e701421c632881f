"""Which side of a joint, in words that hold on the finished piece."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]

WAYS = (("right", "left"), ("back", "front"), ("top", "bottom"))
SECOND_SHARE = 0.6
"""A second direction is named when it is this much of the first: between them lies a corner."""


def side_in_words(toward: Floats) -> str:
    """A direction (3,) as a side of the piece: right, left, back, front, top, bottom, or two of them.

    >>> side_in_words(np.array([0.0, -1.0, 0.1]))
    'front side'
    """
    sizes = np.abs(toward)
    order = np.argsort(-sizes)
    first = _way(int(order[0]), toward)
    if sizes[order[1]] > SECOND_SHARE * sizes[order[0]]:
        return f"{first} and {_way(int(order[1]), toward)} side"
    return f"{first} side"


def _way(axis: int, toward: Floats) -> str:
    return WAYS[axis][int(toward[axis] < 0)]
