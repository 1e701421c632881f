"""A leg of the way as a picture on paper: walls hatched, the piece at numbered steps, the tightest gap dimensioned."""

from __future__ import annotations

from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from fitwright.place.route import Passage
from fitwright.place.route.legs import Leg
from fitwright.place.route.model import Bulk
from fitwright.sheets.drawing import Drawing, LineKind, Sketch
from fitwright.sheets.drawing.model import Point
from fitwright.sheets.drawing.scales import scales
from fitwright.sheets.packet.pictures import fitted
from fitwright.sheets.way.scene import NO_HANDS, Scene, Shown, Wall, nosings, scene_of
from fitwright.units import Style

Floats = NDArray[np.float64]

STEPS = 4
HATCH = 1.8  # of walls [mm of paper]
WRITTEN = 8.0  # room for dimensions beside the picture [mm of paper]
HAND = 35.0  # of a hand's mark [mm]
NUMBER = 2.6  # height of the numbers of the steps [mm of paper]
THIN_MM = 60.0  # outlines of parts narrower than this are left to the outline of the whole


def leg_picture(
    leg: Leg, passage: Passage, bulk: Bulk, style: Style, room: tuple[float, float], hands: Floats = NO_HANDS
) -> Drawing | None:
    """The picture as large as it fits the room (width, height) [mm of paper]; None where there is no way to show."""
    scene = scene_of(leg, passage, bulk, STEPS, hands=hands, parts=False)
    if scene is None:
        return None
    sketch = Sketch(style)
    for wall in scene.walls:
        _wall(sketch, wall)
    if scene.view == "side":
        _floor(sketch, leg, scene)
    for number, step in enumerate(scene.steps, 1):
        _step(sketch, step, number, number - 1 == scene.spot)
    _way(sketch, scene)
    if scene.gap is not None:
        sketch.along(_point(scene.gap[0]), _point(scene.gap[1]), 5.0)
    return _fitted(sketch, scene, room)


def _fitted(sketch: Sketch, scene: Scene, room: tuple[float, float]) -> Drawing:
    """At the largest usual scale that leaves room for what is written; found the longer way where it does not."""
    size = scene.window[1] - scene.window[0]
    factor = float(min((room[0] - WRITTEN) / size[0], (room[1] - WRITTEN) / size[1]))
    scale = max((one for one in scales("pictorial") if one.factor <= factor), key=lambda one: one.factor, default=None)
    drawing = sketch.drawing(scale=scale) if scale is not None else None
    if drawing is not None and drawing.paper.width <= room[0] and drawing.paper.height <= room[1]:
        return drawing
    return fitted(sketch, room)


def _wall(sketch: Sketch, wall: Wall) -> None:
    outline = [_point(point) for point in wall.outline]
    sketch.polyline(outline, LineKind.VISIBLE if wall.cut else LineKind.THIN, closed=True)
    if wall.cut:
        sketch.hatch(outline, HATCH)


def _floor(sketch: Sketch, leg: Leg, scene: Scene) -> None:
    line = nosings(leg, scene.window)
    sketch.polyline([_point(point) for point in line])


def _step(sketch: Sketch, step: Shown, number: int, tightest: bool) -> None:
    outline = [_point(point) for point in step.outline]
    sketch.polyline(outline, LineKind.VISIBLE if tightest else LineKind.HIDDEN, closed=True)
    if tightest:
        for part in step.parts:
            if len(part) > 2:
                sketch.polyline([_point(point) for point in part], LineKind.THIN, closed=True)
        for hand in step.hands:
            sketch.circle(_point(hand), HAND)
    sketch.text(str(number), _point(step.outline.mean(axis=0)), NUMBER, bold=True)


def _way(sketch: Sketch, scene: Scene) -> None:
    """The middle's way from step to step."""
    middles = [step.outline.mean(axis=0) for step in scene.steps]
    for one, other in pairwise(middles):
        if float(np.linalg.norm(other - one)) > THIN_MM:
            sketch.line(_point(one), _point(other), LineKind.CENTRE)


def _point(point: Floats) -> Point:
    return float(point[0]), float(point[1])
