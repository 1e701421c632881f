"""Corrections drawn on the piece: where to pull, push, pack, touch up or cut a tack, each with its number."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from fitwright.assess import Assessment
from fitwright.piece.path import Arc as Bend
from fitwright.sheets.drawing import Drawing, LineKind
from fitwright.sheets.drawing.arrangement import picture
from fitwright.sheets.drawing.directions import ISOMETRIC
from fitwright.sheets.drawing.model import Arc, Note, Stroke, View
from fitwright.sheets.drawing.scales import scales
from fitwright.sheets.drawing.solids import gather
from fitwright.sheets.packet.pictures import alone
from fitwright.truing import Touch

Floats = NDArray[np.float64]

HEAD, WIDE = 55.0, 16.0  # an arrow's head on the piece [mm]
ASIDE, CLEAR = 85.0, 180.0  # how far a number stands beside its line, and from other numbers at best [mm]
RING_MM = 3.2  # radius of the ring round a number [mm of paper]


def corrections_picture(assessment: Assessment, touches: Sequence[Touch], room: tuple[float, float]) -> Drawing:
    """The piece from the front right above, each correction by its number, as large as fits a room [mm of paper]."""
    seen = picture(gather(assessment.meshes), ISOMETRIC)
    thin = tuple(replace(stroke, kind=LineKind.THIN) for stroke in seen.strokes)
    arrows: list[Stroke] = []
    spots: list[tuple[str, Floats]] = []
    for number, touch in enumerate(touches, 1):
        ends = _ends(assessment, touch)
        if ends is not None:
            start, end = (ISOMETRIC.flat(point) for point in ends)
            arrows += _arrows(touch, start, end)
            spots.append((str(number), _beside(start, end, [at for _, at in spots])))
    view = View("corrections", scales("pictorial")[0], (*thin, *arrows))
    radius = RING_MM / alone(view, room).views[0].scale.factor
    rings = tuple(Arc((float(at[0]), float(at[1])), radius, 0.0, 2 * np.pi) for _, at in spots)
    drawn = alone(replace(view, arcs=rings), room)
    notes = tuple(Note(text, (float(at[0]), float(at[1])), height=3.5, bold=True) for text, at in spots)
    return replace(drawn, views=(replace(drawn.views[0], notes=notes),))


def _ends(assessment: Assessment, touch: Touch) -> tuple[Floats, Floats] | None:
    if touch.start is not None and touch.end is not None:
        return np.array(touch.start), np.array(touch.end)
    if touch.kind != "bend":
        return None
    member, _, number = touch.subject.rpartition(", bend ")
    found = next((m for m in assessment.piece.members if m.name == member), None)
    if found is None or not number.isdigit():
        return None
    arcs = [segment for segment in found.path.segments if isinstance(segment, Bend)]
    arc = arcs[int(number) - 1]
    middle = arc.at(np.array([arc.angle / 2]))[0]
    outward = (middle - arc.centre) / np.linalg.norm(middle - arc.centre)
    return middle + 30.0 * outward, middle + 150.0 * outward


def _arrows(touch: Touch, start: Floats, end: Floats) -> Iterator[Stroke]:
    """A pull has heads inward, a push outward; packing points up, a bend away from or toward its centre."""
    yield Stroke(np.array([start, end]))
    if touch.kind == "pull":
        inward = touch.amount > 0
        yield from _head(start, end - start if inward else start - end, tip_in=inward)
        yield from _head(end, start - end if inward else end - start, tip_in=inward)
    elif touch.kind == "shim":
        yield from _head(start, end - start, tip_in=True)
    elif touch.kind == "bend":
        closing = touch.amount > 0
        yield from _head(start if closing else end, (end - start) if closing else (start - end), tip_in=False)
    else:
        yield from _head(end, start - end, tip_in=False)


def _head(at: Floats, back: Floats, *, tip_in: bool) -> Iterator[Stroke]:
    """An arrow's head on the line from a place along `back`; tip_in: it points along, else against it."""
    size = float(np.linalg.norm(back))
    if size < 1e-6:
        return
    unit = back / size
    side = np.array([-unit[1], unit[0]])
    tip, tail = (at + HEAD * unit, at) if tip_in else (at, at + HEAD * unit)
    yield Stroke(np.array([tail + WIDE * side, tip, tail - WIDE * side]))


def _beside(start: Floats, end: Floats, taken: Sequence[Floats]) -> Floats:
    """Where its number stands: beside the line, at the place along it that is farthest from the numbers before."""
    run = end - start
    size = float(np.linalg.norm(run))
    side = np.array([-run[1], run[0]]) / size if size > 1e-6 else np.array([1.0, 0.0])
    places = [start + share * run + way * ASIDE * side for share in (0.5, 0.3, 0.7, 0.15, 0.85) for way in (1, -1)]
    away = [min((float(np.linalg.norm(place - other)) for other in taken), default=CLEAR) for place in places]
    return places[int(np.argmax(np.minimum(away, CLEAR)))]
