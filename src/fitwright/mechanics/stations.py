"""Section forces along the elements."""

from __future__ import annotations

from itertools import pairwise

import numpy as np
from numpy.typing import ArrayLike

from fitwright.mechanics.axes import skew
from fitwright.mechanics.model import Floats
from fitwright.mechanics.response import Response

AXIS = skew(np.array([1.0, 0.0, 0.0]))
FLAT = 1e-12
"""Share of its size below which the bow of a parabola is rounding."""


def section_forces(response: Response, at: ArrayLike = (0.0, 0.5, 1.0)) -> Floats:
    """(m, s, 6, k) N Vy Vz T My Mz at stations `at` (s,), as shares of the length [N, N mm].

    What the part beyond the cut does to the part before it, local axes: N is tension, Mz bends towards +y when
    positive and My towards -z. At a point force, the value just before it.
    Holds between the ends as well as at them, for uniform loads and point forces.
    Source: equilibrium of the part before the cut.
    """
    shares = np.asarray(at, dtype=np.float64).reshape(-1)
    x = shares[None, :, None, None] * response.factor.elements.length[:, None, None, None]
    start = response.end_forces[:, None, :6]
    force = -start[:, :, :3] + np.zeros_like(x)
    moment = -start[:, :, 3:] + x * (AXIS @ start[:, :, :3])
    if response.loads.line is not None:
        line = (response.factor.elements.rotation @ response.loads.line)[:, None]
        force = force - x * line
        moment = moment + x**2 / 2 * (AXIS @ line)
    return _with_points(response, shares, np.concatenate([force, moment], axis=2))


def peak_forces(response: Response) -> Floats:
    """(m, 6, k) largest size of each section force along the element [N, N mm].

    Each is taken where it is largest, so that My and Mz together are on the safe side. Between point forces every
    section force is a parabola at most, whose extreme is found exactly.
    Holds for uniform loads and point forces.
    Source: equilibrium.
    """
    ends = section_forces(response, (0.0, 0.5, 1.0))
    peak = _parabola_peak(ends[:, 0], ends[:, 1], ends[:, 2])
    loads, length = response.loads, response.factor.elements.length
    for element in np.unique(loads.point_elements):
        places = loads.point_places[loads.point_elements == element] / length[element]
        peak[element] = _broken_peak(response, int(element), np.unique([0.0, *places, 1.0]))
    return peak


def _broken_peak(response: Response, element: int, breaks: Floats) -> Floats:
    """(6, k) largest sizes on one element with point forces at shares `breaks` of its length."""
    peaks = []
    for start, end in pairwise(breaks):
        inside = section_forces(response, start + (end - start) * np.array([0.25, 0.5, 0.75]))[element]
        first, middle, last = inside
        # the parabola through three points inside, carried on to both ends of the stretch
        peaks.append(_parabola_peak(3 * first - 3 * middle + last, middle, first - 3 * middle + 3 * last))
    return np.asarray(np.max(peaks, axis=0))


def _parabola_peak(start: Floats, middle: Floats, end: Floats) -> Floats:
    """Largest size, from start to end, of the parabola through three values at equal distances."""
    curve = 2 * (start - 2 * middle + end)
    slope = end - start - curve
    size = np.maximum(np.maximum(np.abs(start), np.abs(end)), np.abs(middle))
    bent = np.abs(curve) > FLAT * size
    vertex = -slope / np.where(bent, 2 * curve, 1.0)
    inside = bent & (vertex > 0) & (vertex < 1)
    extreme = np.where(inside, np.abs(start + slope * vertex / 2), 0.0)
    return np.asarray(np.maximum(size, extreme))


def _with_points(response: Response, shares: Floats, result: Floats) -> Floats:
    loads = response.loads
    for element, place, force in zip(loads.point_elements, loads.point_places, loads.point_forces, strict=True):
        x = shares * response.factor.elements.length[element]
        past = x > place * (1 + 1e-12)
        arm = (x - place)[past, None, None]
        result[element, past, :3] -= force[:3]
        result[element, past, 3:] += arm * (AXIS @ force[:3]) - force[3:]
    return result
