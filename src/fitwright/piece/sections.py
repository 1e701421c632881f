"""Points of sections, worked out once for each: many members share one stock."""

from __future__ import annotations

from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from fitwright.stock import Angle, Section
from fitwright.stock.section import rounded_distance

Floats = NDArray[np.float64]

WITHIN_MM = 0.2


@lru_cache(maxsize=256)
def outline_of(section: Section, points: int) -> Floats:
    """The outer outline (k, 2) [mm], counterclockwise; not to be written to."""
    return _kept(section.outline(points))


@lru_cache(maxsize=256)
def fibres_of(section: Section) -> Floats:
    """Fibres (m, 3): u, v [mm] and dA [mm2]; not to be written to."""
    return _kept(section.fibres())


@lru_cache(maxsize=256)
def inner_of(section: Section) -> Floats:
    """Points (k, 2) well within the material, so that a part lying along the side is not met, and the middle [mm]."""
    uv = section.fibres()[:, :2]
    inner = section.distance(uv) < -WITHIN_MM
    middle = section.centroid if section.shape == "angle" else np.zeros(2)
    return _kept(np.vstack([uv[inner] if inner.any() else uv, middle]))


@lru_cache(maxsize=256)
def closely_of(section: Section, every: float) -> Floats:
    """The outline (k, 2) with a point at least every so many millimetres; not to be written to."""
    outline = section.outline()
    nexts = np.roll(outline, -1, axis=0)
    longest = float(np.hypot(*(nexts - outline).T).max())
    part = np.linspace(0, 1, max(int(np.ceil(longest / every)), 1), endpoint=False)[:, None, None]
    return _kept((outline + part * (nexts - outline)).reshape(-1, 2))


def distance_of(section: Section, uv: Floats) -> Floats:
    """Signed distance (k,) of points (k, 2) to the filled outline [mm], negative inside.

    An angle counts as two plates without their root and toe radii: a part set into it is relieved there (common
    practice), and deep inside the heel the distance may fall short.
    """
    if section.is_round:
        return np.hypot(uv[:, 0], uv[:, 1]) - section.extents[1]
    if not isinstance(section, Angle):
        return section.distance(uv)
    thick = section.thickness
    plates = ((section.leg_a, thick), (thick, section.leg_b))
    return np.minimum(*(rounded_distance(uv - np.array(plate) / 2, *plate, 0.0) for plate in plates))


def _kept(points: Floats) -> Floats:
    points = np.ascontiguousarray(points)
    points.flags.writeable = False
    return points
