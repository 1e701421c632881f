"""The opening drawn round the piece: walls as measured, things in it, neighbours, doors, and the smallest gaps."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise
from math import pi

import numpy as np

from fitwright.job.model import Door, Job, Opening
from fitwright.piece.model import Envelope
from fitwright.place import Fit, Gap
from fitwright.place.resting import floor_heights
from fitwright.place.swinging import leaf, way_of
from fitwright.place.walls import Walls
from fitwright.sheets.drawing import Drawing, LineKind, Sketch
from fitwright.sheets.drawing.model import Point, View
from fitwright.sheets.packet.pictures import fitted

ROOM = (89.0, 114.0)
ROW, LEAST = 7.0, 76.0  # what a row of a table takes from the room of the pictures, and the least that is left of it
WALL = 0.035  # how thick a wall is drawn, of the opening's width
BESIDE = 0.16  # how much of a neighbour is drawn
NEAR = 0.12  # gaps to things are drawn up to this much of the opening's width
SMALL = 1.8  # letters beside the feet [mm of paper]
ASIDE = 0.03  # how far from a foot its letters stand, of the opening's width


@dataclass(frozen=True)
class Surroundings:
    """The place, in the opening's coordinates: x from the left wall at the floor, y from the front line, z up [mm]."""

    job: Job
    opening: Opening
    fit: Fit
    box: Envelope

    @cached_property
    def walls(self) -> Walls:
        """The walls as the fit has them."""
        space = self.job.space
        return Walls(self.opening, float(self.box.swept_high[2]), space.skirting, space.within)

    @property
    def high(self) -> float:
        """How high the walls are drawn [mm]."""
        return max(self.walls.full, float(self.box.swept_high[2])) if not self.opening.tops else self.walls.full

    @property
    def wide(self) -> float:
        """About how wide the opening is [mm]."""
        return self.walls.wide if self.walls.widths else float(self.box.size[0]) + 2 * self.fit.shift[0]

    def gap(self, side: str) -> Gap | None:
        """The smallest gap on a side."""
        return next((gap for gap in self.fit.gaps if gap.side == side), None)

    def left(self, height: float) -> float:
        """Where the left wall is at a height, as deep in as the gap to it is smallest [mm]."""
        return float(self.walls.sides(np.array([height]), self._deep("left"))[0][0])

    def right(self, height: float) -> float:
        """Where the right wall is at a height, as deep in as the gap to it is smallest [mm]."""
        return float(self.walls.sides(np.array([height]), self._deep("right"))[1][0])

    def back(self, height: float, across: float = 0.0) -> float:
        """Where the back wall is at a height and a distance from the left [mm]."""
        return float(self.walls.back(np.array([height]), across)[0])

    @property
    def heights(self) -> list[float]:
        """Where the walls turn: floor, measured heights, top [mm]."""
        return sorted({0.0, self.high, *(float(at) for at in self.walls.heights if 0 < at < self.high)})

    def _deep(self, side: str) -> float:
        gap = self.gap(side)
        return gap.point[1] if gap and gap.point else 0.0

    @property
    def room(self) -> tuple[float, float]:
        """What each picture has on the page, which its tables share [mm of paper]."""
        told = 2 * bool(self.job.space.floor) + bool(self.fit.ways_out)
        rows = len(self.numbered) + bool(self.numbered) + told if self.numbered or self.job.space.floor else 0
        return ROOM[0], max(ROOM[1] - ROW * rows, LEAST)

    @property
    def numbered(self) -> dict[str, int]:
        """The numbers by which things and doors are marked."""
        names = [*self.fit.boxes, *(door.name for door in self.job.space.doors)]
        return {name: number for number, name in enumerate(names, 1)}


def along(pairs: Sequence[tuple[float, float]], at: float) -> float:
    """A measured size between the places where it was measured [mm]; straight from each to the next.

    >>> along([(0.0, 900.0), (100.0, 910.0)], 50.0)
    905.0
    """
    places, sizes = zip(*sorted(pairs), strict=True)
    return float(np.interp(at, places, sizes))


def front_picture(around: Surroundings, view: View) -> Drawing:
    """Floor, walls, ceiling, things and neighbours from the front, the piece, and the smallest gaps on its sides."""
    sketch = _with_piece(around, view, (float(around.fit.move[0]), float(around.fit.move[2])))
    thick = around.wide * WALL
    if around.walls.widths:
        left = [(around.left(z), z) for z in around.heights]
        right = [(around.right(z), z) for z in around.heights]
        _wall(sketch, left, (-thick, 0.0))
        _wall(sketch, right, (thick, 0.0))
        _beside(sketch, around, left[0][0], right[0][0])
        _skirting_front(sketch, around)
        _sideways(sketch, around)
    ends = (-thick, around.wide + thick)
    _wall(sketch, _floor(around, ends), (0.0, -thick))
    if around.opening.tops:
        _wall(sketch, [(x, along(around.opening.tops, x)) for x in ends], (0.0, thick))
        _above(sketch, around)
    _things(sketch, around, (0, 2))
    return fitted(sketch, around.room)


def plan_picture(around: Surroundings, view: View) -> Drawing:
    """Walls where the gaps are smallest, things, doors and neighbours from above, the piece, and what is behind it."""
    sketch = _with_piece(around, view, around.fit.shift)
    thick, behind = around.wide * WALL, around.gap("back")
    height = behind.height if behind else 0.0
    left, right = 0.0, around.wide
    if around.walls.widths:
        deep = around.back(height)
        sides = [_run(around, side, (0.0, deep)) for side in ("left", "right")]
        for line, way in zip(sides, (-thick, thick), strict=True):
            _wall(sketch, line, (way, 0.0))
        left, right = sides[0][0][0], sides[1][0][0]
        _beside_above(sketch, around, (sides[0][-1][0], sides[1][-1][0]), deep)
    wall = [(x, around.back(height, x)) for x in (left - thick, right + thick)]
    _wall(sketch, wall, (0.0, thick))
    sketch.line((left - thick, 0.0), (right + thick, 0.0), LineKind.CENTRE)
    if behind:
        at = behind.point[0] if behind.point else right + thick
        face = around.back(height, at) - float(around.walls.board("back", np.array([height]))[0])
        sketch.height((right + thick, face - behind.value), (right + thick, face), "right")
    sketch.height((left - thick, 0.0), (left - thick, wall[0][1]), "left")
    _things(sketch, around, (0, 1))
    _doors(sketch, around)
    _feet(sketch, around)
    return fitted(sketch, around.room)


def _height(around: Surroundings, side: str) -> float:
    gap = around.gap(side)
    return gap.height if gap else 0.0


def _run(around: Surroundings, side: str, span: tuple[float, float]) -> list[Point]:
    """A side wall from above, at the height where its gap is smallest."""
    stations = sorted({*span, *(float(s) for s in around.walls.stations if span[0] < s < span[1])})
    at = np.full(len(stations), _height(around, side))
    walls = around.walls.sides(at, np.array(stations))[0 if side == "left" else 1]
    return [(float(x), y) for x, y in zip(walls, stations, strict=True)]


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


def _floor(around: Surroundings, ends: tuple[float, float]) -> list[Point]:
    """The floor along the front of the piece."""
    levels = around.job.space.floor
    if not levels:
        return [(ends[0], 0.0), (ends[1], 0.0)]
    across = np.linspace(ends[0], ends[1], 9)
    at = np.column_stack([across, np.full(len(across), around.fit.shift[1])])
    return [(float(x), float(z)) for x, z in zip(across, floor_heights(levels, at), strict=True)]


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


def _dashed(sketch: Sketch, one: Point, other: Point, kind: LineKind = LineKind.HIDDEN) -> None:
    sketch.polyline([one, (other[0], one[1]), other, (one[0], other[1])], kind, closed=True)


def _skirting_front(sketch: Sketch, around: Surroundings) -> None:
    board = around.job.space.skirting
    if board is None:
        return
    for side, wall, way in (("left", around.left, 1.0), ("right", around.right, -1.0)):
        if side in board.on:
            _dashed(sketch, (wall(0.0), 0.0), (wall(0.0) + way * board.thickness, board.height), LineKind.VISIBLE)
    if "back" in board.on:
        sketch.line((around.left(0.0), board.height), (around.right(0.0), board.height), LineKind.HIDDEN)


def _things(sketch: Sketch, around: Surroundings, axes: tuple[int, int]) -> None:
    """Things as crossed boxes with their numbers, and the gap to each that the piece comes near."""
    u, v = axes
    for name, (low, high) in around.fit.boxes.items():
        one, other = (float(low[u]), float(low[v])), (float(high[u]), float(high[v]))
        _dashed(sketch, one, other, LineKind.VISIBLE)
        sketch.line(one, other, LineKind.THIN)
        corner = (one[0] + other[0]) / 2, (one[1] + other[1]) / 2
        sketch.mark(str(around.numbered[name]), corner, pi / 3 if corner[0] < around.wide / 2 else 2 * pi / 3)
    for gap in around.fit.things:
        _gap_to(sketch, around, gap, axes)


def _gap_to(sketch: Sketch, around: Surroundings, gap: Gap, axes: tuple[int, int]) -> None:
    axis, way = {"left": (0, -1.0), "right": (0, 1.0), "back": (1, 1.0), "top": (2, 1.0), "below": (2, -1.0)}[gap.side]
    if axis not in axes or gap.point is None or not 0 < gap.value <= around.wide * NEAR:
        return
    start = [gap.point[axes[0]], gap.point[axes[1]]]
    end = list(start)
    end[axes.index(axis)] += way * gap.value
    sketch.along((start[0], start[1]), (end[0], end[1]), off=4.0)


def _doors(sketch: Sketch, around: Surroundings) -> None:
    """Each leaf as far open as it goes, and the way of its edge."""
    opens = {swing.name: swing.opens for swing in around.fit.swings}
    for door in around.job.space.doors:
        if not _in_sight(around, door):
            continue
        sketch.polyline(_flat(leaf(door, opens[door.name])), closed=True)
        sketch.polyline(_flat(leaf(door, 0.0)), LineKind.HIDDEN, closed=True)
        sketch.polyline(_flat(way_of(door)), LineKind.CENTRE)
        middle = leaf(door, opens[door.name])[:2].mean(axis=0)
        sketch.mark(str(around.numbered[door.name]), (float(middle[0]), float(middle[1])), pi / 3)


def _in_sight(around: Surroundings, door: Door) -> bool:
    """Whether a door is near enough to be drawn with the opening."""
    return -2 * around.wide < door.hinge[0] < 3 * around.wide and abs(door.hinge[1]) < 3 * around.wide


def _flat(points: np.ndarray[tuple[int, ...], np.dtype[np.float64]]) -> list[Point]:
    return [(float(x), float(y)) for x, y in points]


def _feet(sketch: Sketch, around: Surroundings) -> None:
    """What goes under each foot for level, or how far it is off the floor on casters."""
    stands = around.fit.stance
    if stands is None:
        return
    values = stands.open if stands.rolls else stands.shims
    middle = float(around.fit.shift[0] + around.box.swept_low[0] + around.box.swept_high[0] / 2)
    for foot, value in zip(stands.feet, values.tolist(), strict=True):
        x, y = float(foot.at[0] + around.fit.shift[0]), float(foot.at[1] + around.fit.shift[1])
        sketch.circle((x, y), around.wide * 0.008)
        inward = 1.0 if x < middle else -1.0
        sketch.text(
            around.job.style.bare(value), (x + inward * ASIDE * around.wide, y), SMALL,
            "start" if inward > 0 else "end", bold=True,
        )  # fmt: skip


def _sideways(sketch: Sketch, around: Surroundings) -> None:
    """The gaps left and right, each between the wall and the piece where it is smallest, and the opening's width."""
    for side, wall, way in (("left", around.left, 1.0), ("right", around.right, -1.0)):
        gap = around.gap(side)
        if gap is not None:
            at = wall(gap.height) + way * float(around.walls.board(side, np.array([gap.height]))[0])
            sketch.width((at, gap.height), (at + way * gap.value, gap.height))


def _above(sketch: Sketch, around: Surroundings) -> None:
    gap = around.gap("top")
    if gap is not None:
        edge = around.wide * (1 + WALL)
        sketch.height((edge, gap.height), (edge, gap.height + gap.value), "right")
