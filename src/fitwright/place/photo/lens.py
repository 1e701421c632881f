"""The lens: from rays to pixels and back, with the bow that it gives to straight lines."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]

LEAST_ROOT = 1e-3


@dataclass(frozen=True)
class Lens:
    """A lens in a picture of `width` by `height` pixels.

    focal: [px]. centre: where the axis of the lens meets the picture [px]. barrel: how far a ray at the corner (half
    the diagonal from the centre) is drawn in, negative for barrel and positive for pincushion: with radii in half
    diagonals straight = drawn / (1 + barrel * drawn^2).

    Source: one-parameter division model, A. Fitzgibbon, "Simultaneous linear estimation of multiple view geometry and
    lens distortion", CVPR 2001, equation 2.
    """

    width: int
    height: int
    focal: float
    centre: tuple[float, float]
    barrel: float = 0.0

    @property
    def half_diagonal(self) -> float:
        """Half the diagonal of the picture [px]."""
        return half_diagonal(self.width, self.height)

    def drawn(self, rays: Floats) -> Floats:
        """Pixels (n, 2) of rays (n, 3): right, down, forward; those behind the camera are not a number.

        >>> Lens(640, 480, 500.0, (319.5, 239.5)).drawn(np.array([[0.1, 0.0, 1.0]])).round(3).tolist()
        [[369.5, 239.5]]
        """
        forward = np.where(rays[:, 2] > 0, rays[:, 2], np.nan)
        straight = rays[:, :2] / forward[:, None] * (self.focal / self.half_diagonal)
        scale, _, _ = drawing_in((straight**2).sum(axis=1), self.barrel)
        pixels: Floats = np.array(self.centre) + self.half_diagonal * scale[:, None] * straight
        return pixels

    def straightened(self, pixels: Floats) -> Floats:
        """Where pixels (n, 2) would be without the bow of the lens (n, 2) [px]."""
        drawn = (pixels - np.array(self.centre)) / self.half_diagonal
        grown = 1 + self.barrel * (drawn**2).sum(axis=1, keepdims=True)
        straight: Floats = np.array(self.centre) + self.half_diagonal * drawn / np.maximum(grown, LEAST_ROOT)
        return straight

    def rays(self, pixels: Floats) -> Floats:
        """Rays (n, 3) through pixels (n, 2), with 1 forward."""
        across = (self.straightened(pixels) - np.array(self.centre)) / self.focal
        return np.column_stack([across, np.ones(len(pixels))])


def half_diagonal(width: int, height: int) -> float:
    """Half the diagonal of a picture [px]."""
    return float(np.hypot(width, height)) / 2


def drawing_in(square: Floats, barrel: float) -> tuple[Floats, Floats, Floats]:
    """How much nearer to the centre a ray is drawn, and how that changes with the square of its radius and the barrel.

    square: squared radii (n,) of the straight image [half diagonals]. Returns scale (n,), its derivatives (n,), (n,).
    Holds for 4 * barrel * square < 1; beyond, a pincushion lens would draw the ray at infinity, and the limit is given.
    """
    root = np.sqrt(np.maximum(1 - 4 * barrel * square, LEAST_ROOT**2))
    scale = 2 / (1 + root)
    bend = scale**2 / root
    return scale, bend * barrel, bend * square
