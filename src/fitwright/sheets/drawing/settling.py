"""Free dimensions and marks of a sketch settled one by one where they stand over nothing."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from fitwright.sheets.drawing.clearing import apart, around, meetings
from fitwright.sheets.drawing.ink import Ink, Pencil, of_view
from fitwright.sheets.drawing.model import Dimension, PartMark, View

Floats = NDArray[np.float64]

# what it costs that a text stands over a text, that a line runs through a text, and that a text stands over the picture
OVER_TEXT, THROUGH_TEXT, OVER_PICTURE = 100, 30, 10


def settled(view: View, tries: Sequence[Sequence[Dimension | PartMark]]) -> tuple[Dimension | PartMark, ...]:
    """Of each item's ways to be placed the first that stands over nothing, else the one that does least harm.

    view: the picture with its fixed notes.
    """
    pencil = Pencil((0.0, 0.0), view.scale.factor)
    fixed = of_view(replace(view, origin=(0.0, 0.0)))
    picture, lines, boxes = Ground(_bits(fixed)), Ground(np.empty((0, 2, 2))), Ground(_boxes(fixed))
    chosen: list[Dimension | PartMark] = []
    for ways in tries:
        best, ink = _least(pencil, ways, picture, lines, boxes)
        chosen.append(best)
        lines.add(_bits(ink))
        boxes.add(_boxes(ink))
    return tuple(chosen)


class Ground:
    """Straight bits (k, 2, 2) or rectangles (k, 4, 2) that are on the sheet, found again by where they lie."""

    def __init__(self, shapes: Floats) -> None:
        self.shapes, self.low, self.high = shapes, shapes.min(axis=1), shapes.max(axis=1)

    def add(self, shapes: Floats) -> None:
        """Put more on the sheet."""
        self.shapes = np.concatenate([self.shapes, shapes])
        self.low = np.concatenate([self.low, shapes.min(axis=1)])
        self.high = np.concatenate([self.high, shapes.max(axis=1)])

    def near(self, shapes: Floats) -> Floats:
        """Those (n, ...) that a rectangle round any of some shapes (m, j, 2) meets; no other can be met by these."""
        (left, bottom), (right, top) = shapes.min(axis=1).T[..., None], shapes.max(axis=1).T[..., None]
        across = (self.low[:, 0] <= right) & (self.high[:, 0] >= left)
        met = across & (self.low[:, 1] <= top) & (self.high[:, 1] >= bottom)
        return np.asarray(self.shapes[met.any(axis=0)])


def _least(
    pencil: Pencil, ways: Sequence[Dimension | PartMark], picture: Ground, lines: Ground, boxes: Ground
) -> tuple[Dimension | PartMark, Ink]:
    """The first way that costs nothing, else the cheapest."""
    found: list[tuple[int, Dimension | PartMark, Ink]] = []
    for way in ways:
        ink = pencil.mark(way) if isinstance(way, PartMark) else pencil.dimension(way)
        cost = _cost(ink, picture, lines, boxes)
        if cost == 0:
            return way, ink
        found.append((cost, way, ink))
    _, way, ink = min(found, key=lambda one: one[0])
    return way, ink


def _cost(ink: Ink, picture: Ground, lines: Ground, boxes: Ground) -> int:
    """What it costs to put an item on the sheet as it is."""
    mine, bits = _boxes(ink), _bits(ink)
    over = sum(not apart(box, other) for box in mine for other in boxes.near(box[None]))
    through = meetings(lines.near(mine), mine) + meetings(bits, boxes.near(bits))
    return OVER_TEXT * over + THROUGH_TEXT * through + OVER_PICTURE * meetings(picture.near(mine), mine)


def _bits(ink: Ink) -> Floats:
    """Every straight bit of its lines and round its arrowheads (k, 2, 2)."""
    bits = [np.stack([line.points[:-1], line.points[1:]], axis=1) for line in ink.lines]
    bits += [np.stack([fill.points, np.roll(fill.points, -1, axis=0)], axis=1) for fill in ink.fills]
    return np.concatenate(bits) if bits else np.empty((0, 2, 2))


def _boxes(ink: Ink) -> Floats:
    """What its texts fill, with a hair round it (b, 4, 2)."""
    return np.array([around(text.box, 0.5) for text in ink.texts]).reshape(-1, 4, 2)
