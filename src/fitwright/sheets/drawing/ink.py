"""A drawing brought down to what the pen does: lines, filled arrowheads and text, in millimetres of the sheet.

The SVG is written from it, and the proof that nothing is written over anything else is made on it.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from math import atan2, ceil, cos, pi, sin

import numpy as np
from numpy.typing import NDArray

from fitwright.sheets.drawing import lettering
from fitwright.sheets.drawing.clearing import around, broken
from fitwright.sheets.drawing.model import (
    Anchor,
    AngleDimension,
    Dimension,
    Hatch,
    LinearDimension,
    Note,
    PartMark,
    Point,
    RadiusDimension,
    View,
)
from fitwright.sheets.drawing.pens import LineKind

Floats = NDArray[np.float64]

# ISO 129-1: a filled arrowhead of 15 degrees; 3 mm long beside text of 3.5 mm
ARROW = 3.0
ARROW_HALF = ARROW * 0.1317  # tan(7.5 degrees)
GAP = 1.0  # from the part to its extension line
TEXT_GAP = 1.2  # from a line to the text over it, which leaves descenders clear
OVERSHOOT = 2.0  # of the extension line past the dimension line
DOT = 0.6
ROUND_DOT = DOT * np.array([[cos(turn), sin(turn)] for turn in np.linspace(0, 2 * pi, 13)[:-1].tolist()])
TAIL = 2.5 * ARROW  # of a dimension line outside its arrows


@dataclass(frozen=True, eq=False)
class InkLine:
    """A line through points (n, 2)."""

    points: Floats
    kind: LineKind


@dataclass(frozen=True, eq=False)
class InkFill:
    """A filled outline (n, 2)."""

    points: Floats


@dataclass(frozen=True)
class InkText:
    """Text; `at` is the middle of its capitals' height, at the start, middle or end of its length."""

    text: str
    at: Point
    height: float
    anchor: Anchor = "middle"
    angle: float = 0.0
    bold: bool = False

    @property
    def box(self) -> Floats:
        """Corners (4, 2) of what it fills."""
        half = lettering.width(self.text, self.height) / 2
        shift = {"start": half, "middle": 0.0, "end": -half}[self.anchor]
        centre = (self.at[0] + shift * cos(self.angle), self.at[1] + shift * sin(self.angle))
        return lettering.box(self.text, centre, self.height, self.angle)


@dataclass(frozen=True)
class Ink:
    """Everything that is put on a sheet."""

    lines: tuple[InkLine, ...] = ()
    fills: tuple[InkFill, ...] = ()
    texts: tuple[InkText, ...] = ()

    def __add__(self, other: Ink) -> Ink:
        return Ink(self.lines + other.lines, self.fills + other.fills, self.texts + other.texts)


def total(inks: Iterable[Ink]) -> Ink:
    """All of them together."""
    every = list(inks)
    return Ink(
        tuple(line for ink in every for line in ink.lines),
        tuple(fill for ink in every for fill in ink.fills),
        tuple(text for ink in every for text in ink.texts),
    )


def of_view(view: View) -> Ink:
    """A view put at its place on the sheet, its dimension lines broken where a text stands in their way."""
    return total([_pictured(view), _cleared(view)])


def dressing(view: View) -> Ink:
    """What is written about a view: dimensions, marks and notes without the picture, nothing broken yet."""
    lengths, others = _written(view)
    return total([*lengths, others])


def _cleared(view: View) -> Ink:
    """What is written about a view, a dimension's lines broken where another text stands in their way."""
    lengths, others = _written(view)
    texts = [ink.texts[0] for ink in lengths] + list(others.texts)
    boxes = np.array([around(text.box, GAP / 2) for text in texts]).reshape(-1, 4, 2)
    return total([*(_broken(ink, np.delete(boxes, i, axis=0)) for i, ink in enumerate(lengths)), others])


def _written(view: View) -> tuple[list[Ink], Ink]:
    """Each dimension, and the marks and notes together."""
    pencil = Pencil(view.origin, view.scale.factor)
    marks = total(pencil.mark(mark) for mark in view.marks)
    notes = Ink(texts=tuple(pencil.note(note) for note in view.notes))
    return [pencil.dimension(dimension) for dimension in view.dimensions], marks + notes


def _broken(ink: Ink, boxes: Floats) -> Ink:
    lines = tuple(InkLine(points, line.kind) for line in ink.lines for points in broken(line.points, boxes))
    return Ink(lines, ink.fills, ink.texts)


def _pictured(view: View) -> Ink:
    pencil = Pencil(view.origin, view.scale.factor)
    lines = [InkLine(pencil.at(stroke.points), stroke.kind) for stroke in view.strokes]
    lines += [InkLine(pencil.at(arc.points()), arc.kind) for arc in view.arcs]
    hatched = total(pencil.hatch(hatch) for hatch in view.hatches)
    return Ink((*lines, *hatched.lines))


def upright(angle: float) -> float:
    """The angle of a text along a line [rad], to be read from below or from the right.

    >>> upright(pi) == 0.0, round(upright(-pi / 2) / pi, 6)
    (True, 0.5)
    """
    turned = (angle + pi / 2 - 1e-9) % pi - pi / 2 + 1e-9
    return 0.0 if abs(turned) < 1e-9 else turned


@dataclass(frozen=True)
class Pencil:
    """Draws for a view whose origin stands at a place on the sheet, at a scale."""

    origin: Point
    factor: float

    def at(self, points: Floats | Point) -> Floats:
        """Places on the sheet."""
        placed: Floats = np.asarray(points, dtype=float) * self.factor + np.array(self.origin)
        return placed

    def note(self, note: Note) -> InkText:
        """A note's text."""
        x, y = self.at(note.at)
        return InkText(note.text, (float(x), float(y)), note.height, note.anchor, note.angle, note.bold)

    def hatch(self, hatch: Hatch) -> Ink:
        """Slanting lines inside a convex outline."""
        outline = self.at(hatch.outline)
        slant = np.array([-1.0, 1.0]) / 2**0.5
        reach = outline @ slant
        first, last = ceil(reach.min() / hatch.spacing), ceil(reach.max() / hatch.spacing)
        chords = _chords(outline, slant, hatch.spacing * np.arange(first, last))
        return Ink(tuple(InkLine(chord, LineKind.THIN) for chord in chords))

    def dimension(self, dimension: Dimension) -> Ink:
        """A dimension of any kind."""
        if isinstance(dimension, LinearDimension):
            return self._linear(dimension)
        if isinstance(dimension, RadiusDimension):
            return self._radius(dimension)
        return self._angle(dimension)

    def mark(self, mark: PartMark) -> Ink:
        """A part mark with its leader and dot."""
        anchor = self.at(mark.anchor)
        return self._leader(anchor, mark.text, self.at(mark.text_at)) + Ink(fills=(InkFill(anchor + ROUND_DOT),))

    def _leader(self, anchor: Floats, text: str, text_at: Floats) -> Ink:
        """A leader to the near end of a short line under a text (ISO 128-2, leader and reference lines)."""
        near, far = landing(text, (float(text_at[0]), float(text_at[1])), float(anchor[0]))
        line = InkLine(np.array([anchor, near, far]), LineKind.THIN)
        return Ink((line,), (), (InkText(text, (float(text_at[0]), float(text_at[1])), 3.5),))

    def _linear(self, dimension: LinearDimension) -> Ink:
        along = np.array(dimension.along)
        base, start, end = self.at(dimension.base), self.at(dimension.start), self.at(dimension.end)
        feet = [base + ((p - base) @ along) * along for p in (start, end)]
        if (feet[1] - feet[0]) @ along < 0:
            feet, start, end = feet[::-1], end, start
        text_at = self.at(dimension.text_at)
        half = lettering.width(dimension.text, 3.5) / 2
        reach = [0.0, float((feet[1] - feet[0]) @ along)]
        middle = float((text_at - feet[0]) @ along)
        if dimension.outward:
            reach = [reach[0] - TAIL, reach[1] + TAIL]
        if middle + half > reach[1] or middle - half < reach[0]:
            reach = [min(reach[0], middle - half), max(reach[1], middle + half)]
        line = InkLine(np.array([feet[0] + reach[0] * along, feet[0] + reach[1] * along]), LineKind.THIN)
        ends = tuple(_extension(p, foot) for p, foot in zip((start, end), feet, strict=True))
        turn = -1.0 if dimension.outward else 1.0
        arrows = (_arrow(feet[0], -turn * along), _arrow(feet[1], turn * along))
        angle = upright(atan2(along[1], along[0]))
        text = InkText(dimension.text, (float(text_at[0]), float(text_at[1])), 3.5, "middle", angle)
        return Ink((line, *(e for e in ends if e is not None)), arrows, (text,))

    def _radius(self, dimension: RadiusDimension) -> Ink:
        way = np.array([cos(dimension.at_angle), sin(dimension.at_angle)])
        tip = self.at(np.array(dimension.centre) + dimension.value * way)
        text_at = self.at(dimension.text_at)
        near, _ = landing(dimension.text, (float(text_at[0]), float(text_at[1])), float(tip[0]))
        run = tip - near
        return self._leader(tip, dimension.text, text_at) + Ink(fills=(_arrow(tip, run / max(np.hypot(*run), 1e-9)),))

    def _angle(self, dimension: AngleDimension) -> Ink:
        vertex, radius = self.at(dimension.vertex), dimension.radius * self.factor
        turned = np.linspace(dimension.start, dimension.end, max(2, ceil((dimension.end - dimension.start) / 0.05) + 1))
        spokes = np.stack([np.cos(turned), np.sin(turned)], axis=1)
        arc = InkLine(vertex + radius * spokes, LineKind.THIN)
        legs = tuple(
            InkLine(np.array([vertex, vertex + (radius + OVERSHOOT) * spokes[i]]), LineKind.THIN) for i in (0, -1)
        )
        lean = ARROW / (2 * max(radius, ARROW))
        arrows = tuple(
            _arrow(vertex + radius * spokes[i], turn * np.array([-sin(a - turn * lean), cos(a - turn * lean)]))
            for i, a, turn in ((0, dimension.start, -1.0), (-1, dimension.end, 1.0))
        )
        x, y = self.at(dimension.text_at)
        return Ink((arc, *legs), arrows, (InkText(dimension.text, (float(x), float(y)), 3.5),))


def landing(text: str, text_at: Point, anchor_x: float) -> tuple[Floats, Floats]:
    """Ends of the short line under a text, the one nearer to an anchor first [mm of the sheet]."""
    half = lettering.width(text, 3.5) / 2
    low = text_at[1] - 3.5 / 2 - TEXT_GAP
    ends = np.array([text_at[0] - half, low]), np.array([text_at[0] + half, low])
    return ends if anchor_x <= text_at[0] else ends[::-1]


def extent(ink: Ink) -> tuple[float, float, float, float]:
    """Left, bottom, right and top of what is inked [mm]; zeros for nothing."""
    shapes = (
        [line.points for line in ink.lines] + [fill.points for fill in ink.fills] + [text.box for text in ink.texts]
    )
    if not shapes:
        return (0.0, 0.0, 0.0, 0.0)
    points = np.concatenate(shapes)
    (left, bottom), (right, top) = points.min(axis=0), points.max(axis=0)
    return (float(left), float(bottom), float(right), float(top))


def _extension(start: Floats, foot: Floats) -> InkLine | None:
    run = foot - start
    length = float(np.hypot(run[0], run[1]))
    if length <= GAP:
        return None
    unit = run / length
    return InkLine(np.array([start + GAP * unit, foot + OVERSHOOT * unit]), LineKind.THIN)


def _arrow(tip: Floats, way: Floats) -> InkFill:
    """An arrowhead with its tip at a place, pointing along a unit vector."""
    back, aside = tip - ARROW * way, ARROW_HALF * np.array([-way[1], way[0]])
    return InkFill(np.array([tip, back + aside, back - aside]))


def _chords(outline: Floats, normal: Floats, reaches: Floats) -> Floats:
    """Where the lines of points with p @ normal = reach cross a convex outline (k, 2): (n, 2, 2), of those that do."""
    level = outline @ normal - reaches[:, None]
    following = np.roll(level, -1, axis=1)
    crossed = (level < 0) != (following < 0)
    line, side = np.nonzero(crossed & (crossed.sum(axis=1) == 2)[:, None])
    start, end = level[line, side], following[line, side]
    along = np.roll(outline, -1, axis=0) - outline
    chords: Floats = outline[side] + (start / (start - end))[:, None] * along[side]
    return chords.reshape(-1, 2, 2)
