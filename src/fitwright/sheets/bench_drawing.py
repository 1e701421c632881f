"""The bench from above: holes by name, stops, blocks, clamps and the parts, as the maker sees it standing in front."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from itertools import pairwise
from math import atan2, hypot, pi

import numpy as np
from numpy.typing import NDArray

from fitwright.making.bench import BenchPlan, Clamp, Outline, Spacer, Stop, Support
from fitwright.making.bench.devices import letters
from fitwright.sheets.drawing import Drawing, LineKind, Sketch, lettering
from fitwright.sheets.drawing.model import SMALL_TEXT, Arc, DrawingError, Point
from fitwright.sheets.drawing.scales import scales
from fitwright.sheets.drawing.svg import inked
from fitwright.units import Style

Floats = NDArray[np.float64]

BLOCK_WIDE = 36.0  # how wide blocks are drawn: 2x4 or 40 mm stock [mm]
ON_BENCH = 0.5
NAMES_OFF = 4.0  # of hole names from the bench's edge [mm of paper]
LEAST_OVER = 1.0
LETTERS = 26
ROW_LINE = 1.1  # from one number of a row to the next, in heights of their text
APART = 60.0  # equal marks nearer to one another than this are told once [mm]
REACHES = (6.0, 9.0, 13.0, 18.0, 24.0, 31.0, 39.0)  # leaders among many stops and clamps [mm of paper]
TEXT_AIR = 0.7  # kept free round a text [mm of paper]


def bench_drawing(plan: BenchPlan, style: Style, room: tuple[float, float] = (190.0, 170.0)) -> Drawing:
    """One set-up from above, as large as fits a room (width, height) [mm of paper].

    Columns have letters and rows numbers, counted from the bench's named corner, which is marked. Parts on the bench
    are drawn full, parts above it dashed; stops and blocks are hatched; a clamp is a line from its hole to its pad.
    Raises DrawingError when it fits at no usual scale.
    """
    (left, front), (right, back) = _reach(plan)
    practice = "inch" if style.unit == "inch" else "metric"
    for scale in sorted({*scales(practice), *scales("pictorial")}, reverse=True):
        if (right - left) * scale.factor > room[0] or (back - front) * scale.factor > room[1]:
            continue
        drawing = _sketch(plan, style, scale.factor).drawing(scale=scale)
        if drawing.paper.width <= room[0] and drawing.paper.height <= room[1]:
            return _with_holes(drawing, plan)
    raise DrawingError(f"the set-up {plan.name} fits {room[0]:g} x {room[1]:g} mm at none of the usual scales")


def _with_holes(drawing: Drawing, plan: BenchPlan) -> Drawing:
    """The holes put in last: hundreds of rings are no obstacle for lettering. Those under a part, a block or a text are
    left out, so that what is written stands on clear ground."""
    view = drawing.views[0]
    if not plan.holes:
        return drawing
    places = np.array(plan.holes)
    sheet = places * view.scale.factor + np.array(view.origin)
    covered = np.zeros(len(places), dtype=bool)
    for text in inked(drawing).texts:
        low, high = text.box.min(axis=0) - TEXT_AIR, text.box.max(axis=0) + TEXT_AIR
        covered |= ((sheet > low) & (sheet < high)).all(axis=1)
    for outline in plan.outlines:
        for line in outline.lines:
            covered |= _inside(places, np.array(line))
    holes = tuple(
        Arc((float(x), float(y)), plan.hole_diameter / 2, 0.0, 2 * pi, LineKind.THIN) for x, y in places[~covered]
    )
    return replace(drawing, views=(replace(view, arcs=(*view.arcs, *holes)),))


def _inside(points: Floats, line: Floats) -> NDArray[np.bool_]:
    """(k,) whether points (k, 2) lie inside a closed line (n, 2).

    Source: crossing number of a ray.
    """
    inside = np.zeros(len(points), dtype=bool)
    for (x0, y0), (x1, y1) in pairwise(line):
        if y0 != y1:
            between = (points[:, 1] < y0) != (points[:, 1] < y1)
            inside ^= between & (points[:, 0] < x0 + (points[:, 1] - y0) * (x1 - x0) / (y1 - y0))
    return inside


def _sketch(plan: BenchPlan, style: Style, factor: float) -> Sketch:
    sketch = Sketch(style, plan.name)
    _bench(sketch, plan, factor)
    for outline in sorted(plan.outlines, key=lambda o: o.high):
        _part(sketch, outline)
    for stop in plan.stops:
        _stop(sketch, stop)
    for support in plan.supports:
        _support(sketch, support)
    for spacer in plan.spacers:
        _spacer(sketch, spacer)
    for clamp in plan.clamps:
        _clamp(sketch, clamp)
    _marks(sketch, plan)
    _overhang(sketch, plan)
    return sketch


def _overhang(sketch: Sketch, plan: BenchPlan) -> None:
    """How far parts hang over each edge of the bench."""
    points = np.array([p for outline in plan.outlines for line in outline.lines for p in line])
    low, high = points.min(axis=0), points.max(axis=0)
    wide, deep = plan.size
    if high[0] > wide + LEAST_OVER:
        sketch.width((wide, deep), (float(high[0]), deep), "above")
    if low[0] < -LEAST_OVER:
        sketch.width((float(low[0]), deep), (0.0, deep), "above")
    if high[1] > deep + LEAST_OVER:
        sketch.height((wide, deep), (wide, float(high[1])), "right")
    if low[1] < -LEAST_OVER:
        sketch.height((wide, float(low[1])), (wide, 0.0), "right")


def _bench(sketch: Sketch, plan: BenchPlan, factor: float) -> None:
    """The top with its holes' names along the edges, beyond what hangs over, and the corner they are counted from."""
    wide, deep = plan.size
    sketch.polyline([(0, 0), (wide, 0), (wide, deep), (0, deep)], closed=True)
    (left, front), (right, back) = _reach(plan)
    off, line = NAMES_OFF / factor, NAMES_OFF * 1.3 / factor
    near_x, near_y = plan.corner.endswith("left"), plan.corner.startswith("front")
    names_x, names_y = left - off if near_x else right + off, front - off if near_y else back + off
    _names(sketch, plan, factor, names_x, names_y)
    x, y = 0.0 if near_x else wide, 0.0 if near_y else deep
    sketch.circle((x, y), 2.0 / factor)
    counted = "holes counted" if plan.holes else "lengths counted"
    told = f"{plan.corner} corner: {counted} from here"
    sketch.text(
        told, (x, names_y - line if near_y else names_y + line), SMALL_TEXT, "start" if near_x else "end", bold=True
    )
    sketch.text("front of the bench", (wide / 2, names_y - 2 * line if near_y else front - off), SMALL_TEXT)


def _reach(plan: BenchPlan) -> tuple[Point, Point]:
    """The lowest and highest places of the bench and of what hangs over it."""
    points = [p for outline in plan.outlines for line in outline.lines for p in line]
    xs, ys = [0.0, plan.size[0], *(x for x, _ in points)], [0.0, plan.size[1], *(y for _, y in points)]
    return (min(xs), min(ys)), (max(xs), max(ys))


def _names(sketch: Sketch, plan: BenchPlan, factor: float, names_x: float, names_y: float) -> None:
    """Letters of columns in a row at names_y, numbers of rows in a column at names_x."""
    columns = sorted({x for x, _ in plan.holes}, reverse=not plan.corner.endswith("left"))
    rows = sorted({y for _, y in plan.holes}, reverse=not plan.corner.startswith("front"))
    pitch = [abs(line[1] - line[0]) * factor if len(line) > 1 else np.inf for line in (columns, rows)]
    one, two = (_every(lettering.width(word, SMALL_TEXT) + TEXT_AIR, pitch[0]) for word in ("M", "MM"))
    for number, x in enumerate(columns):
        if number % (one if number < LETTERS else two) == 0:
            sketch.text(letters(number), (x, names_y), SMALL_TEXT)
    each = _every(ROW_LINE * SMALL_TEXT, pitch[1])
    for number, y in enumerate(rows):
        if number % each == 0:
            sketch.text(str(number + 1), (names_x, y), SMALL_TEXT)


def _every(need: float, pitch: float) -> int:
    """Every how many lines of holes a name has room [mm of paper]: each, every second, fifth, tenth …"""
    return next(step for step in (1, 2, 5, 10, 20, 50, 1000) if step * pitch >= need)


def _part(sketch: Sketch, outline: Outline) -> None:
    kind = (
        LineKind.VISIBLE
        if outline.low < ON_BENCH or outline.high - outline.low > 2 * ON_BENCH_STANDS
        else LineKind.HIDDEN
    )
    for line in outline.lines:
        sketch.polyline(list(line), kind)
    if outline.low < ON_BENCH:
        for axis in outline.axes:
            sketch.polyline(list(axis), LineKind.CENTRE)


ON_BENCH_STANDS = 60.0  # what is taller than this stands on what lies below, and is seen from above


def _stop(sketch: Sketch, stop: Stop) -> None:
    """A pin as two rings, a flat stop as a hatched plate with its face to the part; its block between."""
    if stop.round:
        sketch.circle(stop.at, stop.reach).circle(stop.at, stop.reach * 0.55)
    elif not stop.hole.startswith("off "):
        across = _across(stop.towards)
        half, back = stop.width / 2, max(stop.width / 2, 12.0)
        face, rear = _moved(stop.at, stop.towards, stop.reach), _moved(stop.at, stop.towards, -back)
        plate = [_moved(p, across, s * half) for p, s in ((face, 1), (face, -1), (rear, -1), (rear, 1))]
        sketch.polyline(plate, closed=True).hatch(plate, 1.2)
    if stop.gap:
        start = _moved(stop.at, stop.towards, stop.reach)
        _strip(sketch, start, stop.contact, BLOCK_WIDE)


def _support(sketch: Sketch, support: Support) -> None:
    x, y = support.at
    half = BLOCK_WIDE / 2
    corners: list[Point] = [(x - half, y - half), (x + half, y - half), (x + half, y + half), (x - half, y + half)]
    sketch.polyline(corners, LineKind.HIDDEN, closed=True)
    sketch.line(corners[0], corners[2], LineKind.THIN).line(corners[1], corners[3], LineKind.THIN)


def _spacer(sketch: Sketch, spacer: Spacer) -> None:
    if spacer.length:
        _strip(sketch, spacer.start, spacer.end, BLOCK_WIDE / 2)


def _clamp(sketch: Sketch, clamp: Clamp) -> None:
    """A line from the hole to the pad, a small square where it is held and a ring where it presses."""
    (x, y), side = clamp.at, 9.0
    sketch.polyline(
        [(x - side, y - side), (x + side, y - side), (x + side, y + side), (x - side, y + side)], closed=True
    )
    sketch.line(clamp.at, clamp.pad, LineKind.VISIBLE).circle(clamp.pad, 7.0)


Mark = tuple[str, Point, float]


def _marks(sketch: Sketch, plan: BenchPlan) -> None:
    """Marks of parts, names of the holes in use, letters of blocks; equal ones close by are named once."""
    told: list[tuple[str, Point]] = []
    for text, at, way in _wanted_marks(plan):
        if not any(text == known and hypot(at[0] - x, at[1] - y) < APART for known, (x, y) in told):
            told.append((text, at))
            sketch.mark(text, at, way, REACHES)


def _wanted_marks(plan: BenchPlan) -> Iterator[Mark]:
    """Every mark: its text, where it points to, and the way in which its leader would best go [rad]."""
    yield from ((outline.part, outline.placed, pi / 4) for outline in plan.outlines)
    for stop in plan.stops:
        yield from _stop_marks(stop)
    yield from ((support.block, support.at, pi / 4) for support in plan.supports)
    yield from ((one.block, _middle(one.start, one.end), pi / 3) for one in plan.spacers if one.block)
    for clamp in plan.clamps:
        if clamp.hole in plan.hole_names:
            yield clamp.hole, clamp.at, atan2(clamp.at[1] - clamp.pad[1], clamp.at[0] - clamp.pad[0]) - 0.5


def _stop_marks(stop: Stop) -> Iterator[Mark]:
    away = atan2(-stop.towards[1], -stop.towards[0])
    if not stop.hole.startswith("off "):
        yield "bar" if stop.hole.endswith(" edge") else stop.hole, stop.at, away + 0.5
    if stop.block:
        yield stop.block, _middle(_moved(stop.at, stop.towards, stop.reach), stop.contact), away + pi / 2


def _strip(sketch: Sketch, start: Point, end: Point, width: float) -> None:
    """A hatched block from start to end."""
    length = hypot(end[0] - start[0], end[1] - start[1])
    if length < 1e-6:
        return
    across = _across(((end[0] - start[0]) / length, (end[1] - start[1]) / length))
    corners = [_moved(p, across, s * width / 2) for p, s in ((start, 1), (start, -1), (end, -1), (end, 1))]
    sketch.polyline(corners, closed=True).hatch(corners, 0.9)


def _across(way: Point) -> Point:
    return (-way[1], way[0])


def _moved(point: Point, way: Point, by: float) -> Point:
    return (point[0] + by * way[0], point[1] + by * way[1])


def _middle(a: Point, b: Point) -> Point:
    return ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2)
