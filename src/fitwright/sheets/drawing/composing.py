"""Views placed on a sheet: the side and top in line with the front, the isometric where room is left."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace

import numpy as np

from fitwright.sheets.drawing.directions import Projection
from fitwright.sheets.drawing.ink import dressing, extent
from fitwright.sheets.drawing.model import View
from fitwright.sheets.drawing.paper import Paper
from fitwright.sheets.drawing.scales import Scale, scales
from fitwright.sheets.drawing.titleblock import Rect

APART = 8.0  # between views [mm]
SMALLEST = 0.45  # of the isometric, against the other views

Draw = Callable[[Scale], View]


@dataclass(frozen=True)
class Views:
    """How to draw each view at a scale, its origin at (0, 0); `size` is what front, side and top cover bare [mm]."""

    front: Draw
    side: Draw
    top: Draw
    isometric: Draw
    size: tuple[float, float]


@dataclass(frozen=True)
class Composed:
    """Views in their places, and the scale of the principal ones."""

    views: tuple[View, ...]
    scale: Scale
    pictorial: Scale


def taken(view: View) -> Rect:
    """Left, bottom, right and top of everything in a view, relative to its origin [mm of paper]."""
    written = extent(dressing(replace(view, origin=(0.0, 0.0))))
    shapes = [s.points for s in view.strokes] + [a.points(0.3) for a in view.arcs] + [h.outline for h in view.hatches]
    if not shapes:
        return written
    points = np.concatenate(shapes) * view.scale.factor
    low, high = points.min(axis=0), points.max(axis=0)
    nothing = written == (0.0, 0.0, 0.0, 0.0)
    picture = (float(low[0]), float(low[1]), float(high[0]), float(high[1]))
    return picture if nothing else _union(picture, written)


def composed(views: Views, paper: Paper, room: Rect) -> Composed | None:
    """The views at the largest usual scale that leaves room for the isometric at one as large or near it.

    None when they do not fit at any.
    """
    space = (room[2] - room[0], room[3] - room[1])
    for scale in scales(paper.practice):
        if views.size[0] * scale.factor > space[0] or views.size[1] * scale.factor > space[1]:
            continue
        found = _at(views, scale, paper, room)
        if found:
            return found
    return None


def _at(views: Views, scale: Scale, paper: Paper, room: Rect) -> Composed | None:
    """The views at one scale, or None when they or a readable isometric do not fit."""
    front, side, top = views.front(scale), views.side(scale), views.top(scale)
    f, s, t = taken(front), taken(side), taken(top)
    above = paper.projection is Projection.THIRD_ANGLE
    columns = min(f[0], t[0]), max(f[2], t[2])
    rows = min(f[1], s[1]), max(f[3], s[3])
    side_x = columns[1] + APART - s[0]
    top_y = rows[1] + APART - t[1] if above else rows[0] - APART - t[3]
    block = (columns[0], min(rows[0], top_y + t[1]), side_x + s[2], max(rows[1], top_y + t[3]))
    size, space = (block[2] - block[0], block[3] - block[1]), (room[2] - room[0], room[3] - room[1])
    if size[0] > space[0] or size[1] > space[1]:
        return None
    corner = (columns[1] + APART, rows[1] + APART, side_x + s[2], block[3])
    if not above:
        corner = (columns[1] + APART, block[1], side_x + s[2], rows[0] - APART)
    fit = _pictorial(views.isometric, scale, scales("pictorial"), list(_gaps(block, corner, above, space)))
    if fit is None:
        return None
    picture, gap = fit
    i = taken(picture)
    iso_at = ((gap[0] + gap[2] - i[0] - i[2]) / 2, (gap[1] + gap[3] - i[1] - i[3]) / 2)
    placed = [(front, (0.0, 0.0)), (side, (side_x, 0.0)), (top, (0.0, top_y)), (picture, iso_at)]
    return Composed(_centred(placed, room), scale, picture.scale)


def _gaps(block: Rect, corner: Rect, above: bool, space: tuple[float, float]) -> Iterator[Rect]:
    """Places for the isometric: the corner that the three views leave, that corner and on to the edge of the sheet, a
    strip to the right of all, a strip above or below all."""
    spare_x, spare_y = space[0] - (block[2] - block[0]), space[1] - (block[3] - block[1])
    right, up, down = block[2] + spare_x, block[3] + spare_y, block[1] - spare_y
    yield (corner[0], corner[1], right, up) if above else (corner[0], down, right, corner[3])
    yield (block[2] + APART, block[1], right, up) if above else (block[2] + APART, down, right, block[3])
    yield (block[0], block[3] + APART, right, up)
    yield (block[0], down, right, block[1] - APART)


def _pictorial(draw: Draw, scale: Scale, steps: tuple[Scale, ...], gaps: list[Rect]) -> tuple[View, Rect] | None:
    """The isometric as large as fits, not larger than the others nor less than SMALLEST of them, with where it goes."""
    for step in steps:
        if not SMALLEST * scale.factor <= step.factor <= scale.factor:
            continue
        view = draw(step)
        left, bottom, right, top = taken(view)
        for gap in gaps:
            if right - left <= gap[2] - gap[0] and top - bottom <= gap[3] - gap[1]:
                return view, gap
    return None


def _centred(placed: list[tuple[View, tuple[float, float]]], room: Rect) -> tuple[View, ...]:
    """The views moved together to the middle of the room."""
    rects = [(x + r[0], y + r[1], x + r[2], y + r[3]) for (view, (x, y)) in placed for r in [taken(view)]]
    everything = rects[0]
    for rect in rects[1:]:
        everything = _union(everything, rect)
    dx = (room[0] + room[2] - everything[0] - everything[2]) / 2
    dy = (room[1] + room[3] - everything[1] - everything[3]) / 2
    return tuple(replace(view, origin=(x + dx, y + dy)) for view, (x, y) in placed)


def _union(a: Rect, b: Rect) -> Rect:
    return (min(a[0], b[0]), min(a[1], b[1]), max(a[2], b[2]), max(a[3], b[3]))
