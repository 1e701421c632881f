"""Templates as drawings at true size, in tiles where the paper is too small; rulers that prove the scale."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import pairwise
from math import ceil, pi

import numpy as np
from numpy.typing import NDArray

from fitwright.making.coping import CopeSheet, Measured, Seam, Template
from fitwright.sheets.drawing import Drawing, LineKind, Paper, lettering
from fitwright.sheets.drawing.directions import Projection
from fitwright.sheets.drawing.model import Note, Point, Stroke, View
from fitwright.sheets.drawing.scales import Scale
from fitwright.units import Style

Floats = NDArray[np.float64]

TRUE_SIZE = Scale(Fraction(1))
EDGE = 1.5  # round the template on its drawing [mm]
BAND = 20.0  # of a template above its base line that is written on [mm]
HEIGHTS = (3.5, 2.5, 2.0)
MARK_HEIGHT = 5.0
LABEL_HEIGHT = 2.5
TELL_APART = 0.1  # two lines nearer than this are drawn as one [mm]
OVERLAP = 12.0  # of two tiles [mm]
CROSS = 3.0
LETTERS = "ABCDEFGHJKLMNPQRSTUVWXYZ"


@dataclass(frozen=True)
class Tile:
    """A window on a drawing: its lower left corner and its size [mm], row and column from the upper left."""

    x: float
    y: float
    width: float
    height: float
    row: int
    column: int


@dataclass(frozen=True)
class Tiled:
    """A template's drawing with its matching marks, and the windows that fit the paper."""

    drawing: Drawing
    tiles: tuple[Tile, ...]


def template_drawing(sheet: CopeSheet, style: Style) -> Drawing:
    """The template at true size, its base line at the bottom, printed side up.

    Full line: to cut to square through the wall; broken: the outside edge when the wall is bevelled; long dashes with
    dots: centre lines; thin: folds.
    """
    template = sheet.template
    strokes = [*_outline(template), *_upright_lines(template), _arrow(template)]
    notes = [*_edge_words(template), *_line_words(template), *_words(sheet, style)]
    return _sheet_of(strokes, notes)


def tiled(drawing: Drawing, room: tuple[float, float]) -> Tiled:
    """The drawing, turned a quarter where that saves paper, in windows that fit a room (width, height) [mm].

    Neighbouring windows overlap by 12 mm; marks in the overlap stand on both, to be laid on one another.
    """
    upright, flat = _windows(drawing, room), _windows(quarter_turned(drawing), room)
    chosen = drawing if len(upright) <= len(flat) else quarter_turned(drawing)
    tiles = upright if len(upright) <= len(flat) else flat
    return Tiled(_with_marks(chosen, tiles), tuple(tiles))


def quarter_turned(drawing: Drawing) -> Drawing:
    """The drawing turned a quarter to the left."""
    view, paper = drawing.views[0], drawing.paper
    width, origin = paper.height, view.origin

    def at(x: float, y: float) -> Point:
        return width - (y + origin[1]), x + origin[0]

    strokes = tuple(
        Stroke(np.column_stack([width - (s.points[:, 1] + origin[1]), s.points[:, 0] + origin[0]]), s.kind)
        for s in view.strokes
    )
    notes = tuple(replace(note, at=at(*note.at), angle=note.angle + pi / 2) for note in view.notes)
    turned = replace(view, strokes=strokes, notes=notes, origin=(0.0, 0.0))
    return replace(drawing, paper=paper.turned(), views=(turned,))


def ruler_drawing(width: float) -> Drawing:
    """Rulers to lay a rule on, across and up the page, in millimetres and in inches; width: of the picture [mm]."""
    across = [*_scale(150, 150, up=1.0), *_inch_scale(6, up=-1.0)]
    upright = [*_scale(30, 20, up=1.0), *_inch_scale(1, up=-1.0)]
    strokes = [_placed(stroke, (LEFT, RULER_AT), 0.0) for stroke, _ in across]
    strokes += [_placed(stroke, (width - 12.0, LOW), pi / 2) for stroke, _ in upright]
    notes = [_lettered(note, (LEFT, RULER_AT), 0.0) for _, note in across if note]
    notes += [_lettered(note, (width - 12.0, LOW), pi / 2) for _, note in upright if note]
    notes += [
        Note(said, (LEFT, RULER_AT + 19.0 - 5.0 * row), 3.5 if row == 0 else 2.5, "start", bold=row == 0)
        for row, said in enumerate(RULER_WORDS)
    ]
    view = View("rulers", TRUE_SIZE, tuple(strokes), notes=tuple(notes))
    return Drawing(_paper(width, RULER_HEIGHT), (view,), TRUE_SIZE, framed=False)


RULER_HEIGHT = 36.0
LEFT, LOW = 3.0, 3.0  # of the beginnings of the rulers, from the corner of the picture [mm]
RULER_AT = 14.0  # of the line of the ruler across, from the bottom of the picture [mm]
RULER_WORDS = (
    "Before you cut: lay a rule on both rulers.",
    "If one is off by more than 1/64 in (0.4 mm), print again at 100 %, not fitted to the page.",
)
MM_TICKS = ((10, 6.0), (5, 4.5), (1, 3.0))
INCH_TICKS = ((16, 7.0), (8, 5.5), (4, 4.5), (2, 3.5), (1, 2.5))

Tick = tuple[Stroke, Note | None]


def _scale(length: int, told: int, up: float) -> Iterator[Tick]:
    """A line with a tick each millimetre, numbers each ten, the unit at the one that is `told`."""
    yield Stroke(np.array([[0.0, 0.0], [float(length), 0.0]]), LineKind.THIN), None
    for mm in range(length + 1):
        high = next(high for every, high in MM_TICKS if mm % every == 0)
        label = f"{mm} mm" if mm == told else str(mm)
        note = Note(label, (float(mm), up * 8.0), 2.0) if mm % 10 == 0 else None
        yield Stroke(np.array([[mm, 0.0], [mm, up * high]]), LineKind.THIN), note


def _inch_scale(length: float, up: float) -> Iterator[Tick]:
    """A tick each sixteenth of an inch, numbers each inch."""
    for sixteenth in range(int(length * 16) + 1):
        at = sixteenth * 25.4 / 16
        high = next(high for every, high in INCH_TICKS if sixteenth % every == 0)
        whole = sixteenth % 16 == 0
        label = f"{sixteenth // 16} in" if sixteenth == 16 * int(length) else str(sixteenth // 16)
        note = Note(label, (at, up * 9.5), 2.0) if whole else None
        yield Stroke(np.array([[at, 0.0], [at, up * high]]), LineKind.THIN), note


def _placed(stroke: Stroke, origin: Point, angle: float) -> Stroke:
    turn = np.array([[np.cos(angle), np.sin(angle)], [-np.sin(angle), np.cos(angle)]])
    return Stroke(stroke.points @ turn + np.array(origin), stroke.kind)


def _lettered(note: Note, origin: Point, angle: float) -> Note:
    (x, y), cos, sin = note.at, float(np.cos(angle)), float(np.sin(angle))
    return replace(note, at=(origin[0] + x * cos - y * sin, origin[1] + x * sin + y * cos), angle=angle)


def _outline(template: Template) -> Iterator[Stroke]:
    """What the scissors follow, and the line for a bevel."""
    curve = np.column_stack([template.around, template.square])
    yield Stroke(np.vstack([curve, [template.girth, 0.0], [0.0, 0.0], curve[:1]]))
    if float((template.bevelled - template.square).max()) > TELL_APART:
        yield Stroke(np.column_stack([template.around, template.bevelled]), LineKind.HIDDEN)
        for at, k in ((0.0, 0), (template.girth, -1)):
            if template.bevelled[k] - template.square[k] > TELL_APART:
                yield Stroke(np.array([[at, template.square[k]], [at, template.bevelled[k]]]), LineKind.HIDDEN)


def _upright_lines(template: Template) -> Iterator[Stroke]:
    """Folds all the way up; centre lines where nothing is written, and a tick on the base line."""
    for line in template.lines:
        top = float(template.at(np.array([line.at]), template.square)[0])
        if line.fold:
            yield Stroke(np.array([[line.at, 0.0], [line.at, top]]), LineKind.THIN)
            continue
        if top > BAND:
            yield Stroke(np.array([[line.at, BAND], [line.at, top]]), LineKind.CENTRE)
        yield Stroke(np.array([[line.at, 0.0], [line.at, min(1.5, top)]]))


def _writing_room(template: Template) -> tuple[float, float]:
    """From where to where the widest stretch between folds reaches [mm]."""
    edges = [0.0, *(line.at for line in template.lines if line.fold), template.girth]
    return max(pairwise(edges), key=lambda pair: round(pair[1] - pair[0], 6))


def _arrow(template: Template) -> Stroke:
    """Which way the end of the member is."""
    x, low, high = _writing_room(template)[0] + 4.0, 6.5, 18.0
    head = [[x, high], [x - 1.5, high - 3], [x, high], [x + 1.5, high - 3]]
    return Stroke(np.array([[x, low], *head]))


def _words(sheet: CopeSheet, style: Style) -> Iterator[Note]:
    """Whose it is, and where its base line goes."""
    left, right = _writing_room(sheet.template)
    room = right - left - 9.0
    mark = _fitting((_whose(sheet),), room, (MARK_HEIGHT, *HEIGHTS))
    yield Note(mark[0], (left + 7.0, 15.5), mark[1], "start", bold=True)
    base = _fitting(_base_words(sheet, style), room, HEIGHTS)
    yield Note(base[0], (left + 7.0, 9.0), base[1], "start")


def _whose(sheet: CopeSheet) -> str:
    """The mark and its end, or every mark that the template serves."""
    if len(sheet.uses) == 1:
        return f"{sheet.template.mark} {sheet.template.end_word}"
    return " ".join(dict.fromkeys(use.template.mark for use in sheet.uses))


def _base_words(sheet: CopeSheet, style: Style) -> tuple[str, ...]:
    """Where the base line goes, where that is the same for every use: in full, and for narrow paper."""
    placement = sheet.template.placement
    if any(use.template.placement != placement for use in sheet.uses):
        return "base line: see the list", "see list"
    whence = "the tip" if placement.measured is Measured.TIP else "the bend"
    away = style.length(placement.distance)
    return f"base line {away} from {whence}", f"base line {away}", away


def _fitting(words: tuple[str, ...], room: float, heights: tuple[float, ...]) -> tuple[str, float]:
    """The first of the words at the largest height at which it fits the room [mm]; the last shortened if none does."""
    for text in words:
        for height in heights:
            if lettering.width(text, height) <= room:
                return text, height
    return lettering.shortened(words[-1], heights[-1], room), heights[-1]


def _edge_words(template: Template) -> Iterator[Note]:
    """The seam, at each edge where nothing else stands."""
    wide = lettering.width("seam", LABEL_HEIGHT) + 2.0
    free = template.lines[0].at, template.girth - template.lines[-1].at
    if template.seam is Seam.HEEL:
        return
    if free[0] > wide:
        yield Note("seam", (1.0, 3.0), LABEL_HEIGHT, "start")
    if free[1] > 2 * wide:
        yield Note("seam", (template.girth - 1.0, 3.0), LABEL_HEIGHT, "end")


def _line_words(template: Template) -> Iterator[Note]:
    """The names of lines, where there is room for them."""
    apart = min(b - a for a, b in pairwise([*(line.at for line in template.lines), template.girth]))
    for line in template.lines:
        named = line.label not in ("fold", "middle")
        if named and apart > lettering.width(line.label, LABEL_HEIGHT) + 1.5:
            yield Note(line.label, (line.at + 0.8, 3.0), LABEL_HEIGHT, "start")


def _sheet_of(strokes: list[Stroke], notes: list[Note]) -> Drawing:
    """A drawing just large enough, at true size."""
    points = np.vstack([stroke.points for stroke in strokes])
    low, high = points.min(axis=0) - EDGE, points.max(axis=0) + EDGE
    view = View("template", TRUE_SIZE, tuple(strokes), notes=tuple(notes), origin=(-float(low[0]), -float(low[1])))
    size = high - low
    return Drawing(_paper(float(size[0]), float(size[1])), (view,), TRUE_SIZE, framed=False)


def _paper(width: float, height: float) -> Paper:
    return Paper("template", width, height, Projection.THIRD_ANGLE, "metric", margin=0.0)


def _windows(drawing: Drawing, room: tuple[float, float]) -> list[Tile]:
    """Windows row by row from the upper left."""
    columns, rows = (_spans(size, part) for size, part in zip(_size(drawing), room, strict=True))
    return [
        Tile(x, drawing.paper.height - top - height, width, height, row, column)
        for row, (top, height) in enumerate(rows)
        for column, (x, width) in enumerate(columns)
    ]


def _size(drawing: Drawing) -> tuple[float, float]:
    return drawing.paper.width, drawing.paper.height


def _spans(size: float, room: float) -> list[tuple[float, float]]:
    """Beginnings and lengths of equal overlapping spans that cover a size [mm]."""
    if size <= room:
        return [(0.0, size)]
    count = ceil((size - OVERLAP) / (room - OVERLAP))
    length = (size + (count - 1) * OVERLAP) / count
    return [(k * (length - OVERLAP), length) for k in range(count)]


def _with_marks(drawing: Drawing, tiles: list[Tile]) -> Drawing:
    """The drawing with two crosses in every overlap, each pair with its letter."""
    places = list(_joints(tiles))
    if not places:
        return drawing
    view = drawing.views[0]
    strokes, notes = list(view.strokes), list(view.notes)
    for number, (x, y) in enumerate(places):
        at = np.array([x, y]) - np.array(view.origin)
        strokes += [
            Stroke(at + np.array([[-CROSS, 0.0], [CROSS, 0.0]])),
            Stroke(at + np.array([[0.0, -CROSS], [0.0, CROSS]])),
        ]
        label = LETTERS[number % len(LETTERS)]
        notes.append(Note(label, (float(at[0]) + 1.2, float(at[1]) + 2.2), LABEL_HEIGHT, "start", bold=True))
    return replace(drawing, views=(replace(view, strokes=tuple(strokes), notes=tuple(notes)),))


def _joints(tiles: list[Tile]) -> Iterator[Point]:
    """Where crosses go: a quarter and three quarters along the edge that two windows share."""
    for tile in tiles:
        for other in tiles:
            if other.row == tile.row and other.column == tile.column + 1:
                x = (other.x + tile.x + tile.width) / 2
                yield from ((x, tile.y + part * tile.height) for part in (0.75, 0.25))
            if other.column == tile.column and other.row == tile.row + 1:
                y = (tile.y + other.y + other.height) / 2
                yield from ((tile.x + part * tile.width, y) for part in (0.25, 0.75))
