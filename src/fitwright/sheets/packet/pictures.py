"""Drawings as pictures in the packet: with the lettering that the typesetter has, and cut to what they show."""

from __future__ import annotations

import re
from dataclasses import replace
from fractions import Fraction

from fitwright.sheets.drawing import Drawing, LineKind, Paper, Sketch, to_svg
from fitwright.sheets.drawing.composing import taken
from fitwright.sheets.drawing.directions import Projection
from fitwright.sheets.drawing.model import View
from fitwright.sheets.drawing.scales import Scale, scales

# the one sans serif that the typesetter carries in itself, so that a machine without fonts prints the same
LETTERING = "DejaVu Sans Mono"

SPARE = 0.5  # that a text may stand over the edge [mm]
BELOW = 1.5  # the least that is left under a bar [mm]


def packet_svg(drawing: Drawing) -> str:
    """The drawing as SVG for the typesetter; texts keep the width that was allowed for them."""
    return re.sub(r'font-family="[^"]*"', f'font-family="{LETTERING}"', to_svg(drawing))


def texts_fit(drawing: Drawing) -> bool:
    """Whether everything written stays on the picture."""
    low, _, high, _ = taken(drawing.views[0])
    start = drawing.views[0].origin[0]
    return start + low > -SPARE and start + high < drawing.paper.width + SPARE


def without_texts_beside(drawing: Drawing) -> Drawing:
    """A picture of one bar without the texts below it and their leaders, and without the room for them."""
    view = drawing.views[0]
    edges = [stroke.points for stroke in view.strokes if stroke.kind is LineKind.VISIBLE]
    foot = min(float(points[:, 1].min()) for points in edges)
    kept = replace(
        view,
        strokes=tuple(stroke for stroke in view.strokes if stroke.kind is LineKind.VISIBLE),
        notes=tuple(note for note in view.notes if note.at[1] > foot),
        origin=(view.origin[0], view.origin[1] - foot * view.scale.factor + BELOW),
    )
    height = drawing.paper.height - foot * view.scale.factor + BELOW
    return replace(drawing, views=(kept,), paper=replace(drawing.paper, height=height))


def fitted(sketch: Sketch, room: tuple[float, float]) -> Drawing:
    """The sketch as large as it fits a room (width, height) [mm of paper], at the finer scales of pictures.

    Raises DrawingError when it fits at no usual scale.
    """
    usual = sketch.drawing(room)
    assert usual.scale is not None
    larger = [scale for scale in scales("pictorial") if usual.scale < scale < Scale(usual.scale.ratio * 2)]
    for scale in sketch.bare_fits(larger, room):
        tried = sketch.drawing(scale=scale)
        if tried.paper.width <= room[0] and tried.paper.height <= room[1]:
            return tried
    return usual


def alone(view: View, room: tuple[float, float]) -> Drawing:
    """The lines of a view without anything written, as large as fits a room (width, height) [mm of paper]."""
    bare = replace(view, dimensions=(), marks=(), notes=(), origin=(0.0, 0.0))
    left, bottom, right, top = (side / view.scale.factor for side in taken(bare))
    factor = min(room[0] / (right - left), room[1] / (top - bottom))
    edge = 1.0
    paper = Paper("picture", (right - left) * factor + 2 * edge, (top - bottom) * factor + 2 * edge,
                  Projection.THIRD_ANGLE, "metric", margin=0.0)  # fmt: skip
    scale = Scale(Fraction(factor).limit_denominator(10**6))
    placed = replace(bare, scale=scale, origin=(edge - left * factor, edge - bottom * factor))
    return Drawing(paper, (placed,), None, framed=False)
