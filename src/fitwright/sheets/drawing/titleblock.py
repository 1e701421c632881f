"""The frame of a sheet and the strip along its foot that says what it is."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from fitwright.sheets.drawing import lettering
from fitwright.sheets.drawing.ink import Ink, InkLine, InkText, total
from fitwright.sheets.drawing.model import SMALL_TEXT, Drawing, TitleBlock
from fitwright.sheets.drawing.paper import Paper
from fitwright.sheets.drawing.pens import LineKind
from fitwright.sheets.drawing.symbol import projection_symbol

STRIP = 22.0
PAD = 2.0
Rect = tuple[float, float, float, float]


def room(paper: Paper, block: TitleBlock | None) -> Rect:
    """Left, bottom, right and top of what is left for views [mm]."""
    m = paper.margin
    low = m + (STRIP + 2 * PAD if block else PAD)
    return (m + PAD, low, paper.width - m - PAD, paper.height - m - PAD)


def surround(drawing: Drawing) -> Ink:
    """The frame and the title strip of a sheet."""
    paper = drawing.paper
    m = paper.margin
    inks = []
    if drawing.framed:
        inks.append(_rectangle((m, m, paper.width - m, paper.height - m), LineKind.FRAME))
    if drawing.block:
        inks.append(_strip(drawing, drawing.block, (m, m, paper.width - m, m + STRIP)))
    return total(inks)


@dataclass(frozen=True)
class _Cell:
    """A box of the strip with a small heading and what it says."""

    rect: Rect
    heading: str
    text: str
    height: float = 3.5
    bold: bool = False


def _strip(drawing: Drawing, block: TitleBlock, rect: Rect) -> Ink:
    cells = list(_cells(drawing, block, rect))
    inks = [_rectangle(cell.rect, LineKind.THIN) + _written(cell) for cell in cells]
    inks.append(_rectangle(rect, LineKind.FRAME))
    if drawing.says_projection:
        _, bottom, right, _ = cells[-1].rect
        inks.append(projection_symbol(drawing.paper.projection, (right - 12.0, bottom + STRIP / 4), 6.5))
    return total(inks)


def _cells(drawing: Drawing, block: TitleBlock, rect: Rect) -> Iterator[_Cell]:
    """Two rows: title and scale above; job, number, date, who and projection below (fields of ISO 7200)."""
    left, bottom, right, top = rect
    middle = (bottom + top) / 2
    wide = right - left
    at = [left + wide * share for share in (0.0, 0.44, 0.62, 0.80, 1.0)]
    yield _Cell((at[0], middle, at[1], top), "title", block.title, 5.0, bold=True)
    yield _Cell((at[1], middle, at[2], top), "number", block.number)
    yield _Cell((at[2], middle, at[3], top), "scale", drawing.scale.label if drawing.scale else "not to scale")
    yield _Cell((at[3], middle, at[4], top), "sheet", block.sheet)
    yield _Cell((at[0], bottom, at[1], middle), "job", block.job)
    yield _Cell((at[1], bottom, at[2], middle), "drawn", f"{block.drawn} {block.date}".strip())
    yield _Cell((at[2], bottom, at[3], middle), "lengths in", block.units)
    heading = drawing.paper.projection.value if drawing.says_projection else ""
    yield _Cell((at[3], bottom, at[4], middle), heading, "")


def _written(cell: _Cell) -> Ink:
    left, bottom, right, top = cell.rect
    space = right - left - 2 * PAD
    height = cell.height
    while height > SMALL_TEXT and lettering.width(cell.text, height) > space:
        height -= 0.25
    shown = lettering.shortened(cell.text, height, space)
    heading = InkText(cell.heading, (left + PAD, top - 2.4), 1.8, "start")
    text = InkText(shown, (left + PAD, bottom + 1.8 + height / 2), height, "start", bold=cell.bold)
    return Ink(texts=tuple(t for t in (heading, text) if t.text))


def _rectangle(rect: Rect, kind: LineKind) -> Ink:
    left, bottom, right, top = rect
    corners = np.array([[left, bottom], [right, bottom], [right, top], [left, top], [left, bottom]])
    return Ink((InkLine(corners, kind),))
