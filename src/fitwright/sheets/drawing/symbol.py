"""The symbol that says which projection the views follow: a cut cone seen from the side and from its small end."""

from __future__ import annotations

import numpy as np

from fitwright.sheets.drawing.directions import Projection
from fitwright.sheets.drawing.ink import Ink, InkLine
from fitwright.sheets.drawing.model import Arc, Point
from fitwright.sheets.drawing.pens import LineKind


def projection_symbol(projection: Projection, centre: Point, height: float) -> Ink:
    """The symbol about a centre [mm]; its large circle is `height` across.

    The small end of the cone points left, and the view from the left stands left of it in third angle, right of it in
    first angle.
    Source: ISO 5456-2, projections symbols; ends in the ratio 1:2.
    """
    large, small = height / 2, height / 4
    shift = height * 0.75
    third = projection is Projection.THIRD_ANGLE
    cone_x, ring_x = (centre[0] + shift, centre[0] - shift) if third else (centre[0] - shift, centre[0] + shift)
    y = centre[1]
    cone = np.array([[-large, -small], [large, -large], [large, large], [-large, small], [-large, -small]])
    rings = [Arc((ring_x, y), r, 0.0, 2 * np.pi).points(0.15) for r in (large, small)]
    axes = [
        np.array([[cone_x - large - 1, y], [cone_x + large + 1, y]]),
        np.array([[ring_x - large - 1, y], [ring_x + large + 1, y]]),
        np.array([[ring_x, y - large - 1], [ring_x, y + large + 1]]),
    ]
    lines = [InkLine(cone + np.array([cone_x, y]), LineKind.VISIBLE)]
    lines += [InkLine(points, LineKind.VISIBLE) for points in rings]
    lines += [InkLine(axis, LineKind.CENTRE) for axis in axes]
    return Ink(tuple(lines))
