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
    picture = _bits(fixed)
    lines, boxes = np.empty((0, 2, 2)), _boxes(fixed)
    chosen: list[Dimension | PartMark] = []
    for ways in tries:
        best, ink = _least(pencil, ways, picture, lines, boxes)
        chosen.append(best)
        lines, boxes = np.concatenate([lines, _bits(ink)]), np.concatenate([boxes, _boxes(ink)])
    return tuple(chosen)


def _least(
    pencil: Pencil, ways: Sequence[Dimension | PartMark], picture: Floats, lines: Floats, boxes: Floats
) -> tuple[Dimension | PartMark, Ink]:
    """The first way that costs nothing, else the cheapest."""
    found: list[tuple[int, Dimension | PartMark, Ink]] = []
    for way in ways:
        ink = pencil.mark(way) if isinstance(way, PartMark) else pencil.dimension(way)
        mine = _boxes(ink)
        cost = OVER_TEXT * sum(not apart(box, other) for box in mine for other in boxes)
        cost += THROUGH_TEXT * (meetings(lines, mine) + meetings(_bits(ink), boxes)) + OVER_PICTURE * meetings(
            picture, mine
        )
        if cost == 0:
            return way, ink
        found.append((cost, way, ink))
    _, way, ink = min(found, key=lambda one: one[0])
    return way, ink


def _bits(ink: Ink) -> Floats:
    """Every straight bit of its lines and round its arrowheads (k, 2, 2)."""
    bits = [np.stack([line.points[:-1], line.points[1:]], axis=1) for line in ink.lines]
    bits += [np.stack([fill.points, np.roll(fill.points, -1, axis=0)], axis=1) for fill in ink.fills]
    return np.concatenate(bits) if bits else np.empty((0, 2, 2))


def _boxes(ink: Ink) -> Floats:
    """What its texts fill, with a hair round it (b, 4, 2)."""
    return np.array([around(text.box, 0.5) for text in ink.texts]).reshape(-1, 4, 2)
