"""The opening drawn round the piece: walls as measured, neighbours, and the smallest gaps."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from fitwright.job.model import Job, Opening
from fitwright.piece.model import Envelope
from fitwright.place import Fit
from fitwright.place.space import Gap
from fitwright.sheets.drawing import Drawing, LineKind, Sketch
from fitwright.sheets.drawing.model import Point, View
from fitwright.sheets.packet.pictures import fitted

ROOM = (89.0, 114.0)
WALL = 0.035  # how thick a wall is drawn, of the opening's width
BESIDE = 0.16  # how much of a neighbour is drawn


@dataclass(frozen=True)
class Surroundings:
    """The place, in the opening's coordinates: x from the left wall at the floor, y from the front line, z up [mm]."""

    job: Job
    opening: Opening
    fit: Fit
    box: Envelope

    @property
    def high(self) -> float:
        """How high the walls are drawn, and over what height they lean [mm]."""
        tops = [height for _, height in self.opening.tops]
        return min(tops) if tops else float(self.box.swept_high[2])

    @property
    def wide(self) -> float:
        """About how wide the opening is [mm]."""
        return self.opening.widths[0][1] if self.opening.widths else float(self.box.size[0]) + 2 * self.fit.shift[0]

    def gap(self, side: str) -> Gap | None:
        """The smallest gap on a side."""
        return next((gap for gap in self.fit.gaps if gap.side == side), None)

    def left(self, height: float) -> float:
        """Where the left wall is at a height [mm]."""
        return self._lean("left", height)

    def right(self, height: float) -> float:
        """Where the right wall is at a height [mm]."""
        return self.left(height) + along(self.opening.widths, height)

    def back(self, height: float) -> float:
        """Where the back wall is at a height [mm]."""
        return along(self.opening.depths, height) - self._lean("back", height)

    @property
    def heights(self) -> list[float]:
        """Where the walls turn: floor, measured heights, top [mm]."""
        return sorted({0.0, self.high, *(at for at, _ in self.opening.widths if 0 < at < self.high)})

    def _lean(self, side: str, height: float) -> float:
        return self.opening.lean.get(side, 0.0) * min(max(height / self.high, 0.0), 1.0)


def along(pairs: Sequence[tuple[float, float]], at: float) -> float:
    """A measured size between the places where it was measured [mm]; straight from each to the next.

    >>> along([(0.0, 900.0), (100.0, 910.0)], 50.0)
    905.0
    """
    places, sizes = zip(*sorted(pairs), strict=True)
    return float(np.interp(at, places, sizes))


def front_picture(around: Surroundings, view: View) -> Drawing:
    """Floor, walls, ceiling and neighbours from the front, the piece, and the smallest gaps on its sides."""
    sketch = _with_piece(around, view, (around.fit.shift[0], 0.0))
    thick = around.wide * WALL
    if around.opening.widths:
        left = [(around.left(z), z) for z in around.heights]
        right = [(around.right(z), z) for z in around.heights]
        _wall(sketch, left, (-thick, 0.0))
        _wall(sketch, right, (thick, 0.0))
        _beside(sketch, around, left[0][0], right[0][0])
        _sideways(sketch, around)
    ends = (-thick, around.wide + thick)
    _wall(sketch, [(ends[0], 0.0), (ends[1], 0.0)], (0.0, -thick))
    if around.opening.tops:
        _wall(sketch, [(x, along(around.opening.tops, x)) for x in ends], (0.0, thick))
        _above(sketch, around)
    return fitted(sketch, ROOM)


def plan_picture(around: Surroundings, view: View) -> Drawing:
    """Walls where the gaps are smallest and neighbours from above, the piece, and the smallest gap behind it."""
    sketch = _with_piece(around, view, around.fit.shift)
    thick, behind = around.wide * WALL, around.gap("back")
    height = behind.height if behind else 0.0
    wall = around.back(height)
    left, right = 0.0, around.wide
    if around.opening.widths:
        left, right = (side(_height(around, name)) for side, name in ((around.left, "left"), (around.right, "right")))
        _wall(sketch, [(left, 0.0), (left, wall)], (-thick, 0.0))
        _wall(sketch, [(right, 0.0), (right, wall)], (thick, 0.0))
        _beside_above(sketch, around, (left, right), wall)
    _wall(sketch, [(left - thick, wall), (right + thick, wall)], (0.0, thick))
    sketch.line((left - thick, 0.0), (right + thick, 0.0), LineKind.CENTRE)
    if behind:
        sketch.height((right + thick, wall - behind.value), (right + thick, wall), "right")
    sketch.height((left - thick, 0.0), (left - thick, wall), "left")
    return fitted(sketch, ROOM)


def _height(around: Surroundings, side: str) -> float:
    gap = around.gap(side)
    return gap.height if gap else 0.0


def _with_piece(around: Surroundings, view: View, shift: tuple[float, float]) -> Sketch:
    sketch = Sketch(around.job.style)
    for stroke in view.strokes:
        places = stroke.points + np.array(shift)
        sketch.polyline([(float(x), float(y)) for x, y in places], LineKind.THIN)
    return sketch


def _wall(sketch: Sketch, line: Sequence[Point], off: Point) -> None:
    """A face of the building with hatching behind it."""
    sketch.polyline(line)
    for (ax, ay), (bx, by) in pairwise(line):
        sketch.hatch([(ax, ay), (bx, by), (bx + off[0], by + off[1]), (ax + off[0], ay + off[1])], 1.6)


def _beside(sketch: Sketch, around: Surroundings, left: float, right: float) -> None:
    """Neighbours at the sides, their outline dashed over the wall."""
    wide = around.wide * BESIDE
    for neighbour in around.job.space.neighbours:
        if neighbour.side in ("left", "right") and neighbour.height:
            at, way = (left, -1.0) if neighbour.side == "left" else (right, 1.0)
            _dashed(sketch, (at, 0.0), (at + way * wide, neighbour.height))


def _beside_above(sketch: Sketch, around: Surroundings, sides: tuple[float, float], wall: float) -> None:
    wide = around.wide * BESIDE
    for neighbour in around.job.space.neighbours:
        if neighbour.side in ("left", "right") and neighbour.depth:
            at, way = (sides[0], -1.0) if neighbour.side == "left" else (sides[1], 1.0)
            _dashed(sketch, (at, wall - neighbour.depth), (at + way * wide, wall))


def _dashed(sketch: Sketch, one: Point, other: Point) -> None:
    sketch.polyline([one, (other[0], one[1]), other, (one[0], other[1])], LineKind.HIDDEN, closed=True)


def _sideways(sketch: Sketch, around: Surroundings) -> None:
    """The gaps left and right, each between the wall and the piece where it is smallest, and the opening's width."""
    for side, wall, way in (("left", around.left, 1.0), ("right", around.right, -1.0)):
        gap = around.gap(side)
        if gap is not None:
            at = wall(gap.height)
            sketch.width((at, gap.height), (at + way * gap.value, gap.height))


def _above(sketch: Sketch, around: Surroundings) -> None:
    gap = around.gap("top")
    if gap is not None:
        edge = around.wide * (1 + WALL)
        sketch.height((edge, gap.height), (edge, gap.height + gap.value), "right")
