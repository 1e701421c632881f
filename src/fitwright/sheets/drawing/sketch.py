"""A drawing made by hand: lines, arcs, dimensions and text, for pictures of one part.

>>> from fitwright.units import Style
>>> sketch = Sketch(Style.metric())
>>> _ = sketch.line((0, 0), (300, 0)).height((0, 0), (0, 40)).width((0, 0), (300, 0))
>>> drawing = sketch.drawing(room=(150, 80))
>>> drawing.scale.label, [d.text for d in drawing.views[0].dimensions]
('1:5', ['40.0', '300.0'])
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction
from math import degrees, hypot, pi
from typing import Literal, Self

import numpy as np

from fitwright.sheets.drawing.composing import taken
from fitwright.sheets.drawing.dimensions import FIRST_ROW, NEXT_ROW, Side, rowed
from fitwright.sheets.drawing.directions import Projection
from fitwright.sheets.drawing.model import (
    DIMENSION_TEXT,
    Anchor,
    Arc,
    Drawing,
    DrawingError,
    Hatch,
    LinearDimension,
    Note,
    PartMark,
    Point,
    Stroke,
    TitleBlock,
    View,
)
from fitwright.sheets.drawing.paper import Paper
from fitwright.sheets.drawing.pens import LineKind
from fitwright.sheets.drawing.scales import Practice, Scale, scales
from fitwright.sheets.drawing.settling import settled
from fitwright.sheets.drawing.titleblock import Rect
from fitwright.sheets.drawing.titleblock import room as room_on
from fitwright.sheets.drawing.ways import AlongWish, AngleWish, MarkWish, RadiusWish, Wish
from fitwright.units import Style

Level = Literal["below", "above"]
Upright = Literal["left", "right"]
SIDES: tuple[Side, ...] = ("left", "below", "right", "above")


REACHES = (10.0, 16.0, 22.0)
PLAIN = Paper("picture", 0.0, 0.0, Projection.THIRD_ANGLE, "metric", margin=0.0)


@dataclass
class Sketch:
    """Collects what is to be drawn, full size in mm, x right and y up; `drawing` then finds a scale and puts it out.

    Each verb returns the sketch, so that verbs can be chained. Lengths print in the given style.
    """

    style: Style
    name: str = ""
    _strokes: list[Stroke] = field(default_factory=list)
    _arcs: list[Arc] = field(default_factory=list)
    _hatches: list[Hatch] = field(default_factory=list)
    _notes: list[Note] = field(default_factory=list)
    _rowed: list[tuple[Side, Point, Point]] = field(default_factory=list)
    _free: list[Wish] = field(default_factory=list)

    def line(self, start: Point, end: Point, kind: LineKind = LineKind.VISIBLE) -> Self:
        """A straight line."""
        return self.polyline([start, end], kind)

    def polyline(self, points: Sequence[Point], kind: LineKind = LineKind.VISIBLE, closed: bool = False) -> Self:
        """A line through points, back to the first when closed."""
        self._strokes.append(Stroke(np.array([*points, points[0]] if closed else points, dtype=float), kind))
        return self

    def arc(self, centre: Point, radius: float, start: float, end: float, kind: LineKind = LineKind.VISIBLE) -> Self:
        """Part of a circle, counterclockwise from start to end [rad]."""
        turn = (end - start) % (2 * pi) or 2 * pi
        self._arcs.append(Arc(centre, radius, start, start + turn, kind))
        return self

    def circle(self, centre: Point, radius: float, kind: LineKind = LineKind.VISIBLE) -> Self:
        """A full circle."""
        self._arcs.append(Arc(centre, radius, 0.0, 2 * pi, kind))
        return self

    def hatch(self, outline: Sequence[Point], spacing: float = 2.0) -> Self:
        """A convex outline filled with slanting lines, `spacing` mm of paper apart."""
        self._hatches.append(Hatch(np.array(outline, dtype=float), spacing))
        return self

    def text(
        self,
        text: str,
        at: Point,
        height: float = DIMENSION_TEXT,
        anchor: Anchor = "middle",
        angle: float = 0.0,
        bold: bool = False,
    ) -> Self:
        """Text at a place, its capitals `height` mm high on paper."""
        self._notes.append(Note(text, at, height, anchor, angle, bold))
        return self

    def width(self, start: Point, end: Point, side: Level = "below") -> Self:
        """A level length, in a row below or above the picture."""
        self._rowed.append((side, start, end))
        return self

    def height(self, start: Point, end: Point, side: Upright = "left") -> Self:
        """An upright length, in a row left or right of the picture."""
        self._rowed.append((side, start, end))
        return self

    def along(self, start: Point, end: Point, off: float = 10.0) -> Self:
        """A length along its own line, `off` mm of paper to the left of it, to the right where negative."""
        length = hypot(end[0] - start[0], end[1] - start[1])
        self._free.append(AlongWish(start, end, off, self.style.bare(length)))
        return self

    def radius(self, centre: Point, radius: float, at_angle: float, text: str | None = None) -> Self:
        """A radius, its arrow on the arc at an angle [rad] from the centre."""
        self._free.append(RadiusWish(centre, radius, at_angle, text or f"R {self.style.bare(radius)}"))
        return self

    def angle(self, vertex: Point, start: float, end: float, off: float = 16.0, text: str | None = None) -> Self:
        """An angle from start counterclockwise to end [rad], on an arc `off` mm of paper from its vertex."""
        self._free.append(AngleWish(vertex, start, end, off, text or f"{degrees(end - start):.1f}°"))
        return self

    def mark(self, text: str, anchor: Point, way: float = pi / 4, reaches: tuple[float, ...] = REACHES) -> Self:
        """A mark on a leader that leaves its part in a direction [rad] where there is room, as short as can be."""
        self._free.append(MarkWish(text, anchor, way, reaches))
        return self

    def view(self, scale: Scale) -> View:
        """What was collected, at a scale, its origin at the lower left corner of the sheet.

        Texts that would stand over one another are moved along or away from their lines.
        """
        bare = View(self.name, scale, tuple(self._strokes), tuple(self._arcs), tuple(self._hatches))
        if not (self._strokes or self._arcs or self._hatches):
            raise DrawingError("a sketch without lines: draw something before its dimensions")
        box = _full_size(taken(bare), scale)
        fixed = replace(bare, notes=tuple(self._notes))
        chosen = settled(fixed, [wish.ways(scale.factor) for wish in self._free])
        marks = tuple(item for item in chosen if isinstance(item, PartMark))
        lengths = tuple(item for item in chosen if not isinstance(item, PartMark))
        placed = replace(fixed, dimensions=lengths, marks=marks)
        outer = _full_size(taken(placed), scale)
        return replace(placed, dimensions=(*self._rows(box, outer, scale), *lengths))

    def drawing(
        self,
        room: tuple[float, float] = (180.0, 120.0),
        practice: Practice | None = None,
        scale: Scale | None = None,
    ) -> Drawing:
        """A picture without frame, at the largest usual scale at which it fits the room (width, height) [mm].

        The sheet is as large as the picture. Raises DrawingError when it fits at no usual scale.
        """
        usual = scales(practice or ("inch" if self.style.unit == "inch" else "metric"))
        for step in (scale,) if scale else self.bare_fits(usual, room):
            view = self.view(step)
            left, bottom, right, top = taken(view)
            if scale or (right - left <= room[0] and top - bottom <= room[1]):
                paper = replace(PLAIN, width=right - left + 2, height=top - bottom + 2)
                return Drawing(paper, (replace(view, origin=(1 - left, 1 - bottom)),), step, framed=False)
        raise DrawingError(f"the picture fits {room[0]:g} x {room[1]:g} mm at none of the usual scales")

    def bare_fits(self, tried: Iterable[Scale], room: tuple[float, float]) -> list[Scale]:
        """The scales at which the picture fits a room (width, height) [mm] before anything is written about it."""
        wide, high = self._bare_size()
        return [scale for scale in tried if wide * scale.factor <= room[0] and high * scale.factor <= room[1]]

    def _bare_size(self) -> tuple[float, float]:
        """Width and height of the picture without anything written [mm]."""
        left, bottom, right, top = taken(
            View("", Scale(Fraction(1)), tuple(self._strokes), tuple(self._arcs), tuple(self._hatches))
        )
        return right - left, top - bottom

    def sheet(self, paper: Paper, block: TitleBlock | None = None) -> Drawing:
        """The picture in the middle of a framed sheet with its title.

        Raises DrawingError when it fits at no usual scale.
        """
        left, bottom, right, top = room_on(paper, block)
        plain = self.drawing((right - left, top - bottom), paper.practice)
        view = plain.views[0]
        shift = ((left + right - plain.paper.width) / 2, (bottom + top - plain.paper.height) / 2)
        origin = (view.origin[0] + shift[0], view.origin[1] + shift[1])
        return Drawing(paper, (replace(view, origin=origin),), plain.scale, block)

    def _rows(self, box: Rect, outer: Rect, scale: Scale) -> list[LinearDimension]:
        """The level and upright lengths, outside the picture and everything else that is written about it."""
        rows: list[LinearDimension] = []
        for number, side in enumerate(SIDES):
            spans = [(start, end, _reach(start, end, side)) for asked, start, end in self._rowed if asked == side]
            grown = abs(outer[number] - box[number]) * scale.factor
            first = FIRST_ROW if grown < 1 else grown + NEXT_ROW
            rows += rowed(spans, box, scale, self.style, side, first)
        return rows


def _reach(start: Point, end: Point, side: Side) -> float:
    """What a row on this side measures between two points [mm]."""
    along = 0 if side in ("below", "above") else 1
    return abs(end[along] - start[along])


def _full_size(rect: Rect, scale: Scale) -> Rect:
    left, bottom, right, top = (side / scale.factor for side in rect)
    return (left, bottom, right, top)
