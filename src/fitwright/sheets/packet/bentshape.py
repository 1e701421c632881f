"""The picture of a bent part: true shape where it lies in one plane, else an isometric; bends numbered as made."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from fitwright.assess import Assessment
from fitwright.making.bending import BendSheet, path_of
from fitwright.making.bending.table import Pose, pose_of
from fitwright.piece.model import Mark, Member
from fitwright.piece.path import Arc, Path
from fitwright.sheets.drawing import Drawing, LineKind, Paper, Sketch, member_sketch
from fitwright.sheets.drawing.arrangement import picture
from fitwright.sheets.drawing.composing import taken
from fitwright.sheets.drawing.directions import ISOMETRIC, Projection
from fitwright.sheets.drawing.marks import marked
from fitwright.sheets.drawing.model import View
from fitwright.sheets.drawing.scales import scales
from fitwright.sheets.drawing.solids import gather
from fitwright.sheets.packet.pictures import fitted
from fitwright.units import Style

Floats = NDArray[np.float64]

ROOM = (178.0, 88.0)
FLAT_RAD = math.radians(0.01)
# more than this is drawn as several equal turns at as many corners (fitwright.making.bending.table)
ONE_CORNER_RAD = math.radians(120)


def flat(sheet: BendSheet) -> bool:
    """Whether all bends lie in one plane."""
    return all(abs(math.sin(step.rotation)) < FLAT_RAD for step in sheet.steps)


def bent_picture(assessment: Assessment, mark: Mark, sheet: BendSheet) -> Drawing:
    """True shape with its lengths and angles; an isometric with numbered bends for a part out of one plane."""
    if not flat(sheet):
        return _isometric(assessment, mark, sheet)
    return fitted(true_shape(sheet, _depth(sheet), assessment.job.style), ROOM)


def true_shape(sheet: BendSheet, depth: float, style: Style) -> Sketch:
    """The part in the plane of its bends, starting end marked; depth: across the section in that plane [mm]."""
    path = path_of(sheet.table)
    points = _lying(path.vertices[:, :2])
    if any(step.angle > ONE_CORNER_RAD for step in sheet.steps):
        sketch = _outline(Path(np.column_stack([points, np.zeros(len(points))]), path.radii), sheet, depth, style)
    else:
        corners = [(float(x), float(y)) for x, y in points]
        sketch = member_sketch(corners, [float(r) for r in path.radii[1:-1]], depth, style)
    start, way = points[0], points[0] - points[1]
    return sketch.mark("start", (float(start[0]), float(start[1])), math.atan2(way[1], way[0]) + math.pi / 4)


def _depth(sheet: BendSheet) -> float:
    return max(step.depth for step in sheet.steps)


def _lying(points: Floats) -> Floats:
    """Points (n, 2) turned so that the longer side of their box lies across the page."""
    size = points.max(axis=0) - points.min(axis=0)
    return points if size[0] >= size[1] else points @ np.array([[0.0, 1.0], [-1.0, 0.0]])


def _outline(path: Path, sheet: BendSheet, depth: float, style: Style) -> Sketch:
    """Any plane part, ring and half turns too: outlines, straights with their lengths, each bend's radius and angle."""
    sketch, half = Sketch(style), depth / 2
    for segment in path.segments:
        start, end = _flat(segment.start), _flat(segment.end)
        if isinstance(segment, Arc):
            _turn(sketch, segment, half)
            continue
        side = np.array([start[1] - end[1], end[0] - start[0]]) / segment.length * half
        for off in (side, -side):
            sketch.line(_moved(start, off), _moved(end, off))
        sketch.line(start, end, LineKind.CENTRE).along(start, end, depth)
    for number, arc in enumerate(_first_arcs(path, sheet), 1):
        step, middle = sheet.steps[number - 1], _mid(arc)
        centre = _flat(arc.centre)
        way = math.atan2(middle[1] - centre[1], middle[0] - centre[0])
        sketch.radius(
            centre, step.radius, way, f"bend {number}: R {style.bare(step.radius)}, {style.angle(step.angle)}"
        )
    return sketch


def _turn(sketch: Sketch, arc: Arc, half: float) -> None:
    centre = _flat(arc.centre)
    first, last = (math.atan2(p[1] - centre[1], p[0] - centre[0]) for p in (_flat(arc.start), _flat(arc.end)))
    begin, end = (first, last) if arc.axis[2] > 0 else (last, first)
    sketch.arc(centre, arc.radius, begin, end, LineKind.CENTRE)
    for radius in (arc.radius - half, arc.radius + half):
        if radius > 0:
            sketch.arc(centre, radius, begin, end)


def _first_arcs(path: Path, sheet: BendSheet) -> list[Arc]:
    """The first arc of each bend: a large one is drawn as several."""
    arcs = [segment for segment in path.segments if isinstance(segment, Arc)]
    first, at = [], 0
    for step in sheet.steps:
        first.append(arcs[at])
        at += max(1, math.ceil(step.angle / ONE_CORNER_RAD))
    return first


def _mid(arc: Arc) -> Floats:
    middle: Floats = arc.at(np.array([arc.angle / 2]))[0]
    return middle


def _flat(point: Floats) -> tuple[float, float]:
    return (float(point[0]), float(point[1]))


def _moved(point: tuple[float, float], off: Floats) -> tuple[float, float]:
    return (point[0] + float(off[0]), point[1] + float(off[1]))


def _isometric(assessment: Assessment, mark: Mark, sheet: BendSheet) -> Drawing:
    member = assessment.made[mark.mark]
    body = [mesh for mesh in assessment.meshes if mesh.name == mark.names[0]]
    seen = picture(gather(body), ISOMETRIC)
    path = path_of(sheet.table, _pose(member, sheet))
    places = {f"bend {n}": ISOMETRIC.flat(_mid(arc))[None, :] for n, arc in enumerate(_first_arcs(path, sheet), 1)}
    places["start"] = ISOMETRIC.flat(path.start)[None, :]
    for scale in scales("pictorial"):
        marks = marked(places, seen.box, scale, ("left", "right"))
        view = View("isometric", scale, seen.strokes, marks=marks)
        left, bottom, right, top = taken(view)
        if right - left <= ROOM[0] and top - bottom <= ROOM[1]:
            break
    paper = Paper("picture", right - left + 2, top - bottom + 2, Projection.THIRD_ANGLE, "metric", margin=0.0)
    return Drawing(paper, (replace(view, origin=(1 - left, 1 - bottom)),), None, framed=False)


def _pose(member: Member, sheet: BendSheet) -> Pose:
    """Where the tube's starting end is, and which way the work goes from there."""
    path = member.path
    if not sheet.backwards:
        return pose_of(path)
    return pose_of(Path(path.vertices[::-1], path.radii[::-1]))
