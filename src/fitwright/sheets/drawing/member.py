"""A bent member in the plane of its bends: true shape, bend lines, legs, radii and angles."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import atan2, cos, hypot, pi, sin, tan

from fitwright.sheets.drawing.model import Drawing, DrawingError, Point
from fitwright.sheets.drawing.pens import LineKind
from fitwright.sheets.drawing.sketch import Sketch
from fitwright.units import Style

STRAIGHT_RAD = 1e-6


@dataclass(frozen=True)
class FlatBend:
    """A bend in the picture: its corner, centre, radius [mm], the directions of travel before and after [rad], and
    where it starts and ends."""

    corner: Point
    centre: Point
    radius: float
    before: float
    turn: float
    start: Point
    end: Point

    @property
    def middle(self) -> float:
        """Direction from the centre to the middle of the arc [rad]."""
        return atan2(self.corner[1] - self.centre[1], self.corner[0] - self.centre[0])


def member_view(
    points: Sequence[Point],
    radii: Sequence[float],
    width: float,
    style: Style,
    room: tuple[float, float] = (180.0, 110.0),
    name: str = "",
) -> Drawing:
    """A picture of a member that lies in one plane.

    points: corners of its centreline, in its plane [mm]; radii: centreline radius at each inner corner [mm]; width:
    across the member in that plane [mm]; room: what the picture may cover on paper [mm].
    Raises DrawingError where bends overlap or the path folds back; see also `member_sketch`, to draw more into it.
    """
    return member_sketch(points, radii, width, style, name).drawing(room)


def member_sketch(
    points: Sequence[Point], radii: Sequence[float], width: float, style: Style, name: str = ""
) -> Sketch:
    """The picture of `member_view` as a sketch that more can be drawn into."""
    bends = _bends(points, radii)
    ends = [points[0], *(p for bend in bends for p in (bend.start, bend.end)), points[-1]]
    legs = [(a, b) for a, b in zip(ends[::2], ends[1::2], strict=True) if hypot(b[0] - a[0], b[1] - a[1]) > 1e-6]
    sketch = Sketch(style, name)
    for start, end in legs:
        _leg(sketch, start, end, width / 2)
    for bend in bends:
        _bend(sketch, bend, width / 2)
    for end, inner in ((points[0], points[1]), (points[-1], points[-2])):
        sketch.line(*_across(end, atan2(inner[1] - end[1], inner[0] - end[0]), width / 2))
    return _dimensioned(sketch, legs, bends, width / 2)


def _bends(points: Sequence[Point], radii: Sequence[float]) -> list[FlatBend]:
    """The bends along the path; corners that do not turn are passed over."""
    if len(points) < 2 or len(radii) != len(points) - 2:
        raise DrawingError(f"{len(points)} points and {len(radii)} radii: a path needs a radius at each inner point")
    heading = [atan2(b[1] - a[1], b[0] - a[0]) for a, b in pairwise(points)]
    bends = []
    for corner, radius, before, after in zip(points[1:-1], radii, heading[:-1], heading[1:], strict=True):
        turn = (after - before + pi) % (2 * pi) - pi
        if abs(turn) < STRAIGHT_RAD:
            continue
        if pi - abs(turn) < STRAIGHT_RAD:
            raise DrawingError(f"the path folds back on itself at {corner[0]:g}, {corner[1]:g}")
        bends.append(_one_bend(corner, radius, before, turn))
    _check_room(points, bends)
    return bends


def _one_bend(corner: Point, radius: float, before: float, turn: float) -> FlatBend:
    back, after = radius * tan(abs(turn) / 2), before + turn
    start = (corner[0] - back * cos(before), corner[1] - back * sin(before))
    end = (corner[0] + back * cos(after), corner[1] + back * sin(after))
    left = before + (pi / 2 if turn > 0 else -pi / 2)
    centre = (start[0] + radius * cos(left), start[1] + radius * sin(left))
    return FlatBend(corner, centre, radius, before, turn, start, end)


def _check_room(points: Sequence[Point], bends: Sequence[FlatBend]) -> None:
    """Raise DrawingError where two bends, or a bend and an end, reach over one another on a leg."""
    back = {bend.corner: bend.radius * tan(abs(bend.turn) / 2) for bend in bends}
    for a, b in pairwise(points):
        length, asked = hypot(b[0] - a[0], b[1] - a[1]), back.get(a, 0.0) + back.get(b, 0.0)
        if asked > length + 1e-6:
            raise DrawingError(f"a leg of {length:.1f} mm is asked for {asked:.1f} mm of bends: take a smaller radius")


def _leg(sketch: Sketch, start: Point, end: Point, half: float) -> None:
    way = atan2(end[1] - start[1], end[0] - start[0])
    sketch.line(start, end, LineKind.CENTRE)
    for near, far in zip(_across(start, way, half), _across(end, way, half), strict=True):
        sketch.line(near, far)


def _bend(sketch: Sketch, bend: FlatBend, half: float) -> None:
    """Both outlines and the centreline of a bend, with the lines across where it starts and ends."""
    first = atan2(bend.start[1] - bend.centre[1], bend.start[0] - bend.centre[0])
    start, end = (first, first + bend.turn) if bend.turn > 0 else (first + bend.turn, first)
    sketch.arc(bend.centre, bend.radius, start, end, LineKind.CENTRE)
    for radius in (bend.radius - half, bend.radius + half):
        if radius > 1e-6:
            sketch.arc(bend.centre, radius, start, end)
    for point, way in ((bend.start, bend.before), (bend.end, bend.before + bend.turn)):
        sketch.line(*_across(point, way, half * 1.25), LineKind.THIN)


def _dimensioned(sketch: Sketch, legs: Sequence[tuple[Point, Point]], bends: Sequence[FlatBend], half: float) -> Sketch:
    """Legs along themselves, one radius for all bends that share it, the angle and number of each bend."""
    for start, end in legs:
        sketch.along(start, end)
    for bend in bends:
        after = bend.before + bend.turn
        sketch.angle(bend.corner, *((bend.before, after) if bend.turn > 0 else (after, bend.before)))
    times = Counter(round(bend.radius, 3) for bend in bends)
    first = {round(bend.radius, 3): bend for bend in reversed(bends)}
    for radius, bend in sorted(first.items()):
        count = f"{times[radius]} × " if times[radius] > 1 else ""
        sketch.radius(bend.centre, bend.radius, bend.middle, f"{count}R {sketch.style.bare(bend.radius)}")
    for number, bend in enumerate(bends, 1):
        sketch.mark(f"bend {number}", _beyond(bend, -half), bend.middle + pi)
    return sketch


def _beyond(bend: FlatBend, by: float) -> Point:
    reach = bend.radius + by
    return (bend.centre[0] + reach * cos(bend.middle), bend.centre[1] + reach * sin(bend.middle))


def _across(point: Point, way: float, half: float) -> tuple[Point, Point]:
    """The two points beside a point, left and right of a direction [rad]."""
    left = (-sin(way) * half, cos(way) * half)
    return (point[0] + left[0], point[1] + left[1]), (point[0] - left[0], point[1] - left[1])
