"""Quadrature over the simple pieces that a section is made of: rectangles, ring sectors, fillets in a corner.

Each patch gives fibres (m, 3): u, v [mm] and dA [mm2]; their sums are the integrals of polynomials up to degree 3
(rectangles, rings) or to about 1e-14 (corner pieces). Source of the rule: Gauss-Legendre quadrature, Abramowitz and
Stegun, Handbook of Mathematical Functions (1964), 25.4.29-30; equal steps round a full circle are exact likewise.
"""

from __future__ import annotations

from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

Points = NDArray[np.float64]

CORNER_STEPS = 8  # Gauss points over a quarter turn: trigonometric integrands to about 1e-15
FILLET_STEPS = 12  # over an eighth of a turn, where the reach of the ray varies as its secant: to about 1e-14


@lru_cache(maxsize=32)
def _legendre(n: int) -> tuple[Points, Points]:
    nodes, weights = np.polynomial.legendre.leggauss(n)
    return nodes, weights


def gauss(low: float, high: float, n: int) -> tuple[Points, Points]:
    """Nodes and weights (n,) of Gauss-Legendre quadrature on [low, high]."""
    nodes, weights = _legendre(n)
    half = (high - low) / 2
    return low + half * (nodes + 1), half * weights


def rectangle(u: tuple[float, float], v: tuple[float, float], nu: int, nv: int) -> Points:
    """Fibres (nu * nv, 3) of the rectangle between the u and v given as (low, high) [mm]."""
    us, wu = gauss(*u, nu)
    vs, wv = gauss(*v, nv)
    return _grid(np.repeat(us, nv), np.tile(vs, nu), np.repeat(wu, nv) * np.tile(wv, nu))


def ring(inner: float, outer: float, radial: int, around: int) -> Points:
    """Fibres (radial * around, 3) of a full ring about the origin, radii in mm; inner may be 0."""
    turns = (np.arange(around) + 0.5) * (2 * np.pi / around)
    r, w = gauss(inner, outer, radial)
    weights = np.repeat(r * w, around) * (2 * np.pi / around)
    return _grid(np.outer(r, np.cos(turns)).ravel(), np.outer(r, np.sin(turns)).ravel(), weights)


def ring_quarter(centre: tuple[float, float], radii: tuple[float, float], quadrant: int) -> Points:
    """Fibres (2 * CORNER_STEPS, 3) of a quarter ring; radii (inner, outer) [mm]; quadrant 0 lies toward +u and +v."""
    turns, wt = gauss(quadrant * np.pi / 2, (quadrant + 1) * np.pi / 2, CORNER_STEPS)
    r, wr = gauss(*radii, 2)
    u = centre[0] + np.outer(r, np.cos(turns)).ravel()
    v = centre[1] + np.outer(r, np.sin(turns)).ravel()
    return _grid(u, v, np.outer(r * wr, wt).ravel())


def root_fillet(corner: float, radius: float) -> Points:
    """Fibres (4 * FILLET_STEPS, 3) of the fillet between the lines u = corner and v = corner, radius in mm.

    Walked as rays from the centre of the arc to the two lines, in two halves so that each is smooth.
    """
    pieces = [_half_fillet(corner, radius, start) for start in (np.pi, 1.25 * np.pi)]
    return np.concatenate(pieces)


def _half_fillet(corner: float, radius: float, start: float) -> Points:
    turns, wt = gauss(start, start + np.pi / 4, FILLET_STEPS)
    reach = radius / np.maximum(np.abs(np.cos(turns)), np.abs(np.sin(turns)))
    nodes, weights = gauss(0.0, 1.0, 2)
    r = radius + np.outer(nodes, reach - radius)
    da = r * np.outer(weights, wt * (reach - radius))
    centre = corner + radius
    return _grid((centre + r * np.cos(turns)).ravel(), (centre + r * np.sin(turns)).ravel(), da.ravel())


def _grid(u: Points, v: Points, da: Points) -> Points:
    return np.column_stack([u, v, da])
