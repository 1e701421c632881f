"""The weld map: the piece seen from one side with a number at every weld."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from fitwright.making.welding import MapPoint
from fitwright.sheets.drawing import Drawing, DrawingError, LineKind, Paper
from fitwright.sheets.drawing.composing import taken
from fitwright.sheets.drawing.directions import ISOMETRIC, Projection
from fitwright.sheets.drawing.marks import marked
from fitwright.sheets.drawing.model import View
from fitwright.sheets.drawing.scales import scales

EDGE = 1.0


def weld_map(points: Sequence[MapPoint], isometric: View, room: tuple[float, float]) -> Drawing:
    """The isometric as large as fits a room (width, height) [mm], each weld with its number and those of its runs.

    Raises DrawingError when it fits at no usual scale.
    """
    strokes = tuple(replace(stroke, kind=LineKind.THIN) for stroke in isometric.strokes)
    corners = np.concatenate([stroke.points for stroke in strokes])
    (left, bottom), (right, top) = corners.min(axis=0).tolist(), corners.max(axis=0).tolist()
    places = {label(point): ISOMETRIC.flat(point.at)[None, :] for point in points}
    for scale in scales("pictorial"):
        view = View("isometric", scale, strokes, marks=marked(places, (left, bottom, right, top), scale))
        low_x, low_y, high_x, high_y = taken(view)
        if high_x - low_x <= room[0] and high_y - low_y <= room[1]:
            size = (high_x - low_x + 2 * EDGE, high_y - low_y + 2 * EDGE)
            paper = Paper("picture", *size, Projection.THIRD_ANGLE, "metric", margin=0.0)
            placed = replace(view, origin=(EDGE - low_x, EDGE - low_y))
            return Drawing(paper, (placed,), None, framed=False)
    raise DrawingError(f"the weld map fits {room[0]:g} x {room[1]:g} mm at none of the usual scales")


def label(point: MapPoint) -> str:
    """The number of a weld, and those of its runs in order: `15: 1, 27`."""
    return f"{point.weld}: {', '.join(str(order) for order in point.orders)}"
