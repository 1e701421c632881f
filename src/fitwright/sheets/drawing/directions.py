"""Where the viewer stands: the frames of the front, side and top views and of the isometric one."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from math import sqrt

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]


class Projection(Enum):
    """Where a view goes beside the front view (ISO 5456-2): on the side it is seen from, or on the far side."""

    THIRD_ANGLE = "third-angle"
    FIRST_ANGLE = "first-angle"


@dataclass(frozen=True)
class Direction:
    """A parallel projection: rows of `frame` (3, 3) are right, up and towards the viewer, in piece coordinates."""

    name: str
    frame: Floats

    def flat(self, points: Floats) -> Floats:
        """Points (..., 3) [mm] as seen: (..., 2) right and up [mm]."""
        seen: Floats = points @ self.frame[:2].T
        return seen

    def seen(self, points: Floats) -> Floats:
        """Points (..., 3) [mm] as right, up and nearness (..., 3) [mm]."""
        seen: Floats = points @ self.frame.T
        return seen


def _direction(name: str, right: tuple[float, ...], up: tuple[float, ...]) -> Direction:
    return Direction(name, np.array([right, up, np.cross(right, up)], dtype=float))


FRONT = _direction("front", (1, 0, 0), (0, 0, 1))
RIGHT = _direction("right side", (0, 1, 0), (0, 0, 1))
LEFT = _direction("left side", (0, -1, 0), (0, 0, 1))
TOP = _direction("top", (1, 0, 0), (0, 1, 0))
# equal angles with the three axes, seen from the front, right, above (ISO 5456-3, isometric axonometry)
ISOMETRIC = _direction("isometric", (1 / sqrt(2), 1 / sqrt(2), 0), (-1 / sqrt(6), 1 / sqrt(6), 2 / sqrt(6)))


def side(projection: Projection) -> Direction:
    """The side view that stands to the right of the front view: from the right, or in first angle from the left."""
    return RIGHT if projection is Projection.THIRD_ANGLE else LEFT
