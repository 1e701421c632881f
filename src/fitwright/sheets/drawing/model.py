"""One drawing, however it will be put out: views with lines, dimensions, marks and text on a sheet.

Places in a view are in the view's own millimetres, at full size, x right and y up. Heights of text and the room round
it are millimetres on the paper.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from fitwright.errors import FitwrightError
from fitwright.sheets.drawing.paper import Paper
from fitwright.sheets.drawing.pens import LineKind
from fitwright.sheets.drawing.scales import Scale

Floats = NDArray[np.float64]
Point = tuple[float, float]
Anchor = Literal["start", "middle", "end"]

# ISO 3098-1 heights: read at arm's length on a sheet of Letter or A4
DIMENSION_TEXT = 3.5
MARK_TEXT = 3.5
CAPTION_TEXT = 3.5
SMALL_TEXT = 2.5


class DrawingError(FitwrightError, ValueError):
    """A drawing that cannot be made as asked: it fits at no usual scale, or says nothing."""


@dataclass(frozen=True, eq=False)
class Stroke:
    """A line through points (n, 2)."""

    points: Floats
    kind: LineKind = LineKind.VISIBLE


@dataclass(frozen=True)
class Arc:
    """Part of a circle, counterclockwise from start to end [rad]; a full circle when they differ by 2 pi."""

    centre: Point
    radius: float
    start: float
    end: float
    kind: LineKind = LineKind.VISIBLE

    def points(self, step: float = 0.05) -> Floats:
        """Points (n, 2) along it, at most a step [rad] apart."""
        turned = np.linspace(self.start, self.end, max(2, int(np.ceil((self.end - self.start) / step)) + 1))
        at: Floats = np.array(self.centre) + self.radius * np.stack([np.cos(turned), np.sin(turned)], axis=1)
        return at


@dataclass(frozen=True, eq=False)
class Hatch:
    """A convex outline (n, 2) filled with slanting lines, `spacing` apart on the paper [mm]."""

    outline: Floats
    spacing: float = 2.0


@dataclass(frozen=True)
class Note:
    """Text; `at` is the middle of its height, at the start, middle or end of its length."""

    text: str
    at: Point
    height: float = DIMENSION_TEXT
    anchor: Anchor = "middle"
    angle: float = 0.0
    bold: bool = False


@dataclass(frozen=True)
class LinearDimension:
    """A length between two points measured along a unit direction; `base` is a point of the dimension line.

    value: what is measured [mm]; text: as printed, centred on `text_at`; outward: the arrows stand outside.
    """

    start: Point
    end: Point
    along: Point
    base: Point
    value: float
    text: str
    text_at: Point
    outward: bool = False


@dataclass(frozen=True)
class RadiusDimension:
    """A radius [mm], told by an arrow on the arc at an angle [rad] and a text beside it."""

    centre: Point
    value: float
    at_angle: float
    text: str
    text_at: Point


@dataclass(frozen=True)
class AngleDimension:
    """An angle from `start` counterclockwise to `end` [rad] at a vertex, on an arc of `radius` [mm]."""

    vertex: Point
    start: float
    end: float
    radius: float
    text: str
    text_at: Point

    @property
    def value(self) -> float:
        """The angle [rad]."""
        return self.end - self.start


Dimension = LinearDimension | RadiusDimension | AngleDimension


@dataclass(frozen=True)
class PartMark:
    """A part's mark: a dot on the part, a leader, and the mark over a short line at its end."""

    text: str
    anchor: Point
    text_at: Point


@dataclass(frozen=True)
class View:
    """One picture: its lines and what is written about them, at a scale, with its origin at a place on the sheet."""

    name: str
    scale: Scale
    strokes: tuple[Stroke, ...] = ()
    arcs: tuple[Arc, ...] = ()
    hatches: tuple[Hatch, ...] = ()
    dimensions: tuple[Dimension, ...] = ()
    marks: tuple[PartMark, ...] = ()
    notes: tuple[Note, ...] = ()
    origin: Point = (0.0, 0.0)


@dataclass(frozen=True)
class TitleBlock:
    """What the sheet says of itself."""

    title: str
    job: str = ""
    number: str = ""
    sheet: str = ""
    date: str = ""
    drawn: str = ""
    units: str = ""
    remarks: tuple[str, ...] = field(default=())


@dataclass(frozen=True)
class Drawing:
    """A sheet with its views; `scale` is that of the principal views, None for a picture not to scale.

    says_projection: the sheet has views that stand in third or first angle, and says which with the symbol.
    """

    paper: Paper
    views: tuple[View, ...]
    scale: Scale | None
    block: TitleBlock | None = None
    says_projection: bool = False
    framed: bool = True
