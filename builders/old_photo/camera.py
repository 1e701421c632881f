"""The camera that took the old photo: every number known, none of them written into the picture."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]

SIZE = (1080, 1440)


@dataclass(frozen=True)
class Taken:
    """rotation (3, 3): rows right, down, forward; eye (3,) [mm]; focal, centre [px]; barrel: how far the corner is in.

    Source of the bow: one-parameter division model, A. Fitzgibbon, CVPR 2001, equation 2.
    """

    rotation: Floats
    eye: Floats
    focal: float
    centre: tuple[float, float]
    barrel: float

    def draws(self, points: Floats) -> Floats:
        """Pixels (n, 2) of points (n, 3) [mm]."""
        seen = (np.atleast_2d(points) - self.eye) @ self.rotation.T
        half = float(np.hypot(*SIZE)) / 2
        straight = seen[:, :2] / seen[:, 2:] * self.focal / half
        square = (straight**2).sum(axis=1, keepdims=True)
        drawn = straight * 2 / (1 + np.sqrt(1 - 4 * self.barrel * square))
        found: Floats = np.array(self.centre) + half * drawn
        return found


def _looking(eye: Floats, aim: Floats, roll: float) -> Floats:
    forward = (aim - eye) / np.linalg.norm(aim - eye)
    right = np.cross(forward, [0.0, 0.0, 1.0])
    right /= np.linalg.norm(right)
    down = np.cross(forward, right)
    c, s = np.cos(roll), np.sin(roll)
    return np.array([c * right + s * down, c * down - s * right, forward])


_EYE = np.array([2380.0, -2750.0, 1560.0])
CAMERA = Taken(
    rotation=_looking(_EYE, np.array([550.0, 330.0, 1060.0]), 0.012),
    eye=_EYE,
    focal=37.0 / float(np.hypot(36, 24)) * float(np.hypot(*SIZE)),
    centre=((SIZE[0] - 1) / 2 + 7.0, (SIZE[1] - 1) / 2 - 9.0),
    barrel=-0.045,
)
"""As a 37 mm lens on 35 mm film, held at eye height, a little askew."""
