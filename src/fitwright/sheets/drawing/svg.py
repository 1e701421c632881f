"""A drawing as SVG: millimetres, black on white, text as text."""

from __future__ import annotations

from collections.abc import Sequence
from html import escape
from itertools import groupby
from math import degrees

import numpy as np
from numpy.typing import NDArray

from fitwright.sheets.drawing import lettering
from fitwright.sheets.drawing.ink import Ink, InkText, of_view, total
from fitwright.sheets.drawing.model import Drawing
from fitwright.sheets.drawing.pens import PENS, LineKind
from fitwright.sheets.drawing.titleblock import surround


def inked(drawing: Drawing) -> Ink:
    """The whole sheet as the pen draws it [mm from its lower left corner]."""
    return total([surround(drawing), *(of_view(view) for view in drawing.views)])


def to_svg(drawing: Drawing) -> str:
    """The sheet as one SVG document, at true size when printed at 100 %."""
    ink = inked(drawing)
    width, height = drawing.paper.width, drawing.paper.height
    head = (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{_n(width)}mm" height="{_n(height)}mm" '
        f'viewBox="0 0 {_n(width)} {_n(height)}">'
    )
    paper = f'<rect width="{_n(width)}" height="{_n(height)}" fill="#fff"/>'
    return "\n".join([head, paper, *_lines(ink, height), _fills(ink, height), *_texts(ink, height), "</svg>", ""])


def _lines(ink: Ink, height: float) -> list[str]:
    """One group for each kind of line, wide ones last so that they lie on top."""
    order = [LineKind.THIN, LineKind.HIDDEN, LineKind.CENTRE, LineKind.VISIBLE, LineKind.FRAME]
    ranked = sorted(ink.lines, key=lambda line: order.index(line.kind))
    groups = []
    for kind, lines in groupby(ranked, key=lambda line: line.kind):
        pen = PENS[kind]
        dashes = f' stroke-dasharray="{" ".join(_n(d) for d in pen.dashes)}"' if pen.dashes else ""
        path = _path([line.points for line in lines], height)
        groups.append(
            f'<path class="{kind.value}" fill="none" stroke="#000" stroke-width="{_n(pen.width)}" '
            f'stroke-linecap="round" stroke-linejoin="round"{dashes} d="{path}"/>'
        )
    return groups


def _path(outlines: Sequence[NDArray[np.float64]], height: float, end: str = "") -> str:
    """Lines through points (n, 2), numbers as `_n` writes them: together, for a packet has hundreds of thousands."""
    if not outlines:
        return ""
    places = (np.concatenate(outlines) * (1.0, -1.0) + (0.0, height)).ravel().tolist()
    pattern = "".join("M" + "L".join(["%.3f %.3f "] * len(points)) + end for points in outlines)
    text = pattern % tuple(places)
    for longer, shorter in (("0 ", " "), ("0 ", " "), ("0 ", " "), (". ", " "), ("-0 ", "0 ")):
        text = text.replace(longer, shorter)
    return text.replace(" L", "L").replace(" M", "M").replace(" Z", "Z").rstrip()


def _fills(ink: Ink, height: float) -> str:
    path = _path([fill.points for fill in ink.fills], height, "Z")
    return f'<path class="arrow" fill="#000" d="{path}"/>'


def _texts(ink: Ink, height: float) -> list[str]:
    body = [_text(text, height) for text in ink.texts if text.text]
    return [f'<g fill="#000" font-family="{lettering.FONTS}">', *body, "</g>"]


def _text(text: InkText, height: float) -> str:
    """A text element whose capitals are centred on its place, held to the width that was allowed for it."""
    x, y = text.at[0], height - text.at[1]
    turn = f' transform="rotate({_n(-degrees(text.angle))} {_n(x)} {_n(y)})"' if text.angle else ""
    bold = ' font-weight="bold"' if text.bold else ""
    return (
        f'<text x="{_n(x)}" y="{_n(y + text.height / 2)}" font-size="{_n(lettering.font_size(text.height))}" '
        f'text-anchor="{text.anchor}" textLength="{_n(lettering.width(text.text, text.height))}" '
        f'lengthAdjust="spacingAndGlyphs"{bold}{turn}>{escape(_printable(text.text), quote=False)}</text>'
    )


def _printable(text: str) -> str:
    """Without the control characters that XML 1.0 does not admit (section 2.2)."""
    return "".join(c for c in text if c >= " " and c not in "\ufffe\uffff" and not "\ud800" <= c <= "\udfff")


def _n(value: float) -> str:
    """A number to a thousandth of a millimetre, short."""
    text = f"{value:.3f}".rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text
