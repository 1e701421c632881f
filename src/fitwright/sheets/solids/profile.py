"""The outlines of a section as true lines and arcs, not as the polygons that drawings use."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from fitwright.stock import Angle, RectTube, Section
from fitwright.stock.rounds import RoundBar, RoundTube

Point = NDArray[np.float64]

NONE_MM = 1e-9
QUARTER = np.pi / 2


@dataclass(frozen=True)
class Circle:
    """A full circle about the section's origin, radius [mm]."""

    radius: float


@dataclass(frozen=True, eq=False)
class Stroke:
    """A line from start to finish, both (2,) [mm], or the arc between them through the point `through` (2,)."""

    start: Point
    finish: Point
    through: Point | None = None


Loop = Circle | tuple[Stroke, ...]


def outer_loop(section: Section) -> Loop:
    """The outside of a section; raises StockError for sheet goods, which have none."""
    if isinstance(section, RoundTube):
        return Circle(section.od / 2)
    if isinstance(section, RoundBar):
        return Circle(section.diameter / 2)
    if isinstance(section, Angle):
        return _angle(section)
    low_u, high_u, low_v, high_v = section.extents
    return _rectangle(high_u - low_u, high_v - low_v, section.outer_radius if isinstance(section, RectTube) else 0.0)


def bore_loop(section: Section) -> Loop | None:
    """The real bore of a tube, by its nominal wall; None for solid and open sections."""
    if isinstance(section, RoundTube):
        return Circle(section.id / 2)
    if isinstance(section, RectTube):
        return _rectangle(section.bore_width, section.bore_height, section.bore_radius)
    return None


def _rectangle(width: float, height: float, radius: float) -> tuple[Stroke, ...]:
    u, v = width / 2, height / 2
    return _rounded([(u, -v), (u, v), (-u, v), (-u, -v)], [radius] * 4)


def _angle(angle: Angle) -> tuple[Stroke, ...]:
    a, b, t = angle.leg_a, angle.leg_b, angle.thickness
    corners = [(0.0, 0.0), (a, 0.0), (a, t), (t, t), (t, b), (0.0, b)]
    return _rounded(corners, [0.0, 0.0, angle.toe_radius, angle.root_radius, angle.toe_radius, 0.0])


def _rounded(corners: list[tuple[float, float]], radii: list[float]) -> tuple[Stroke, ...]:
    """The closed outline through square corners, each with its radius [mm]; edges of no length are left out."""
    points = np.array(corners)
    onward = np.roll(points, -1, axis=0) - points
    onward = onward / np.linalg.norm(onward, axis=1)[:, None]
    strokes: list[Stroke] = []
    for k, radius in enumerate(radii):
        arrive, leave = points[k] - radius * onward[k - 1], points[k] + radius * onward[k]
        if radius > NONE_MM:
            centre = points[k] + radius * (onward[k] - onward[k - 1])
            strokes.append(Stroke(arrive, leave, centre - radius * (onward[k] - onward[k - 1]) / np.sqrt(2)))
        after = (k + 1) % len(radii)
        finish = points[after] - radii[after] * onward[k]
        if np.linalg.norm(finish - leave) > NONE_MM:
            strokes.append(Stroke(leave, finish))
    return tuple(strokes)
