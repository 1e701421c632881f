"""Lengths asked of a piece, drawn in the views that show them true and ranged in rows beside them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from fitwright.sheets.drawing import lettering
from fitwright.sheets.drawing.directions import Direction
from fitwright.sheets.drawing.ink import TEXT_GAP
from fitwright.sheets.drawing.model import DIMENSION_TEXT, DrawingError, LinearDimension, Point
from fitwright.sheets.drawing.rows import Ask, Place, ranged
from fitwright.sheets.drawing.scales import Scale
from fitwright.units import Style

Floats = NDArray[np.float64]
Axis = Literal["x", "y", "z"]
ViewName = Literal["front", "side", "top"]
Box = tuple[float, float, float, float]
Side = Literal["left", "right", "below", "above"]

# ISO 129-1: 10 mm from the outline to the first dimension line, then 7 mm or more; 8 gives 3.5 mm text its air
FIRST_ROW = 10.0
NEXT_ROW = 8.0
LONGEST = 12.0  # of an extension line inside the picture
TEXT_OFF = TEXT_GAP + DIMENSION_TEXT / 2  # from the dimension line to the middle of its text

AXES: dict[Axis, Floats] = {"x": np.array([1.0, 0, 0]), "y": np.array([0, 1.0, 0]), "z": np.array([0, 0, 1.0])}
USUAL_VIEW: dict[Axis, ViewName] = {"x": "front", "y": "side", "z": "front"}


@dataclass(frozen=True)
class DimensionRequest:
    """A length to be shown: between two points of the piece [mm], measured along an axis, in a view that shows it."""

    start: tuple[float, float, float]
    end: tuple[float, float, float]
    axis: Axis
    view: ViewName | None = None

    @property
    def where(self) -> ViewName:
        """The view asked for, else the one that usually shows this axis."""
        return self.view or USUAL_VIEW[self.axis]

    @property
    def value(self) -> float:
        """The length [mm]."""
        return float(abs((np.array(self.end) - np.array(self.start)) @ AXES[self.axis]))


def overall(vertices: Floats) -> tuple[DimensionRequest, ...]:
    """Width, depth and height of everything, each between the outermost points nearest to where it is drawn.

    vertices (n, 3) [mm].
    """
    return tuple(
        DimensionRequest(_outermost(vertices, number, low=True), _outermost(vertices, number, low=False), axis)
        for number, axis in enumerate(AXES)
    )


def _outermost(vertices: Floats, number: int, low: bool) -> tuple[float, float, float]:
    """The lowest or highest vertex along an axis; of several, the lowest one of the left front, where dimensions go."""
    along = vertices[:, number]
    limit = along.min() if low else along.max()
    level = vertices[np.abs(along - limit) < 1e-6]
    x, y, z = (float(c) for c in level[np.argmin(level.sum(axis=1))])
    return (x, y, z)


def across(axis: Axis, direction: Direction) -> bool:
    """Whether a view shows an axis level (True) or upright (False).

    Raises DrawingError when it shows it foreshortened or not at all.
    """
    right, up, _ = direction.frame @ AXES[axis]
    if abs(right) > 1 - 1e-9:
        return True
    if abs(up) > 1 - 1e-9:
        return False
    raise DrawingError(f"the {direction.name} view does not show lengths along {axis} true: ask for another view")


@dataclass(frozen=True)
class Margins:
    """Where a view's dimensions go: level ones below or above it, upright ones left or right of it."""

    level: Literal["below", "above"] = "below"
    upright: Literal["left", "right"] = "left"


def dimensioned(
    requests: Sequence[DimensionRequest], direction: Direction, box: Box, scale: Scale, style: Style, margins: Margins
) -> tuple[LinearDimension, ...]:
    """The requests drawn in rows beside a view.

    box: left, bottom, right and top of the view's picture in its own full-size coordinates [mm].
    """
    level = [r for r in requests if across(r.axis, direction)]
    upright = [r for r in requests if not across(r.axis, direction)]
    return tuple(
        dimension
        for asked, side in ((level, margins.level), (upright, margins.upright))
        for dimension in _side(_once(asked, direction), direction, box, scale, style, side)
    )


def _once(requests: Sequence[DimensionRequest], direction: Direction) -> list[DimensionRequest]:
    """Requests without those that would show the same length between the same levels again."""
    kept: dict[tuple[int, int], DimensionRequest] = {}
    for request in requests:
        ends = sorted(round(float(np.array(p) @ AXES[request.axis]) * 100) for p in (request.start, request.end))
        kept.setdefault((ends[0], ends[1]), request)
    return list(kept.values())


def _side(
    requests: list[DimensionRequest],
    direction: Direction,
    box: Box,
    scale: Scale,
    style: Style,
    side: Side,
) -> list[LinearDimension]:
    """Rows on one side of the view."""
    spans = []
    for request in requests:
        start, end = (_pair(point) for point in direction.flat(np.array([request.start, request.end])))
        spans.append((start, end, request.value))
    return rowed(spans, box, scale, style, side)


def rowed(
    spans: Sequence[tuple[Point, Point, float]],
    box: Box,
    scale: Scale,
    style: Style,
    side: Side,
    first: float = FIRST_ROW,
) -> list[LinearDimension]:
    """Level or upright lengths in rows on one side of a picture, the first row `first` mm of paper from it.

    spans: start, end and the length to print [mm], in the view's full-size coordinates, as is the picture's box.
    """
    along, factor = (0 if side in ("below", "above") else 1), scale.factor
    texts = [style.bare(value) for _, _, value in spans]
    asks = [
        Ask(min(a[along], b[along]) * factor, max(a[along], b[along]) * factor, lettering.width(text, DIMENSION_TEXT))
        for (a, b, _), text in zip(spans, texts, strict=True)
    ]
    return [
        _drawn(span, text, place, box, factor, side, first)
        for span, text, place in zip(spans, texts, ranged(asks), strict=True)
    ]


def _drawn(
    span: tuple[Point, Point, float], text: str, place: Place, box: Box, factor: float, side: Side, first: float
) -> LinearDimension:
    """One dimension in its place, in the view's full-size coordinates."""
    outwards = -1.0 if side in ("left", "below") else 1.0
    edge = {"left": box[0], "below": box[1], "right": box[2], "above": box[3]}[side]
    line = edge + outwards * (first + place.row * NEXT_ROW) / factor
    middle = place.middle / factor
    start, end = (_brought_out(point, edge, LONGEST / factor, side) for point in span[:2])
    if side in ("below", "above"):
        text_at: Point = (middle, line + TEXT_OFF / factor)
        return LinearDimension(start, end, (1.0, 0.0), (middle, line), span[2], text, text_at, place.outward)
    text_at = (line - TEXT_OFF / factor, middle)
    return LinearDimension(start, end, (0.0, 1.0), (line, middle), span[2], text, text_at, place.outward)


def _brought_out(point: Point, edge: float, longest: float, side: Side) -> Point:
    """Where an extension line starts: at its point, or at the picture's edge where it would run far across it."""
    if side in ("below", "above"):
        return point if abs(point[1] - edge) <= longest else (point[0], edge)
    return point if abs(point[0] - edge) <= longest else (edge, point[1])


def _pair(point: Floats) -> Point:
    return (float(point[0]), float(point[1]))
