"""The cutting plan as a picture: each bar to scale with its cuts, and what remains of it hatched."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import groupby

import numpy as np

from fitwright.sheets.drawing import lettering
from fitwright.sheets.drawing.directions import Projection
from fitwright.sheets.drawing.model import DIMENSION_TEXT, Drawing, DrawingError, Hatch, Note, Stroke, View
from fitwright.sheets.drawing.paper import Paper
from fitwright.sheets.drawing.pens import LineKind
from fitwright.sheets.drawing.scales import Scale
from fitwright.units import Style

EDGE = 1.0
LABEL = 6.5  # for the label over a bar [mm]
THICK = 12.0  # of a bar
BELOW = 9.0  # for the texts of cuts too short to hold them
NEXT = 4.0
INSIDE = 1.0
TOLD_APART = 0.7  # between the two sides of a saw cut, to be drawn as two lines


@dataclass(frozen=True)
class BarRow:
    """One bar of the plan: its label, length [mm], its cuts in order as (mark, length [mm]), what remains [mm].

    What the cuts and the remnant leave of the length is taken by the saw, evenly.
    """

    label: str
    length_mm: float
    cuts: tuple[tuple[str, float], ...]
    remnant_mm: float

    @property
    def kerf_mm(self) -> float:
        """What each cut takes besides its own length [mm]."""
        lost = self.length_mm - self.remnant_mm - sum(length for _, length in self.cuts)
        if lost < -0.01 or self.remnant_mm < 0 or any(length <= 0 for _, length in self.cuts):
            raise DrawingError(
                f"{self.label}: cuts and remnant are {-lost:.1f} mm longer than its {self.length_mm:.1f} mm"
            )
        return max(lost, 0.0) / len(self.cuts) if self.cuts else 0.0


@dataclass(frozen=True)
class _Cut:
    """A cut in its place on the paper [mm]."""

    mark: str
    text: str
    low: float
    high: float

    @property
    def middle(self) -> float:
        return (self.low + self.high) / 2

    @property
    def fits(self) -> bool:
        """Whether mark and length stand inside it, one over the other."""
        widest = max(lettering.width(t, DIMENSION_TEXT) for t in (self.mark, self.text))
        return widest + 2 * INSIDE <= self.high - self.low


def bars_drawing(bars: Sequence[BarRow], style: Style, width: float = 190.0) -> Drawing:
    """All bars one below another, to one scale, on a picture of the given width [mm] and as high as needed.

    Raises DrawingError for no bars, or one whose cuts are longer than it is.
    """
    if not bars:
        raise DrawingError("no bars to draw")
    longest = max(bar.length_mm for bar in bars)
    factor = (width - 2 * EDGE) / longest
    heights = [row_height(bar, factor, style) for bar in bars]
    total = sum(heights) + 2 * EDGE
    strokes: list[Stroke] = []
    hatches: list[Hatch] = []
    notes: list[Note] = []
    top = total - EDGE
    for bar, height in zip(bars, heights, strict=True):
        row = _Row(bar, factor, style, top - LABEL)
        strokes += row.strokes()
        hatches += row.hatches()
        notes += row.notes(width - 2 * EDGE)
        top -= height
    view = View("bars", Scale(Fraction(factor)), *_unscaled(strokes, hatches, notes, factor), origin=(EDGE, 0.0))
    paper = Paper("picture", width, total, Projection.THIRD_ANGLE, "metric", margin=0.0)
    return Drawing(paper, (view,), None, framed=False)


def row_height(bar: BarRow, factor: float, style: Style) -> float:
    """Height that a bar takes [mm of paper] at a scale [mm of paper for each mm]."""
    return LABEL + THICK + (BELOW if _Row(bar, factor, style, 0.0).outside() else 0.0) + NEXT


@dataclass(frozen=True)
class _Row:
    """A bar with its upper edge at a height on the paper; all its places in mm of paper from the left end."""

    bar: BarRow
    factor: float
    style: Style
    top: float

    @property
    def cuts(self) -> list[_Cut]:
        at, kerf, cuts = 0.0, self.bar.kerf_mm, []
        for mark, length in self.bar.cuts:
            cuts.append(_Cut(mark, self.style.bare(length), at * self.factor, (at + length) * self.factor))
            at += length + kerf
        return cuts

    @property
    def remnant(self) -> tuple[float, float]:
        """Where what remains begins and ends."""
        end = self.bar.length_mm * self.factor
        return end - self.bar.remnant_mm * self.factor, end

    def strokes(self) -> list[Stroke]:
        """Outlines of the cuts and of the bar, and the leaders."""
        low, end = self.top - THICK, self.bar.length_mm * self.factor
        lines = [_box(0.0, low, end, self.top, LineKind.VISIBLE)]
        for cut in self.cuts:
            sawn = (cut.high, cut.high + self.bar.kerf_mm * self.factor)
            edges = sawn if sawn[1] - sawn[0] > TOLD_APART else sawn[:1]
            lines += [Stroke(np.array([[x, low], [x, self.top]])) for x in edges if x < end - TOLD_APART]
        for group, at, _ in self.outside():
            y = low - BELOW + DIMENSION_TEXT + 2.0
            tip = (group[0].low + group[-1].high) / 2
            lines.append(Stroke(np.array([[tip, low + 2.0], [tip, low - 1.0], [at, y]]), LineKind.THIN))
        return lines

    def hatches(self) -> list[Hatch]:
        """What remains, but for the place of its length."""
        low, high = self.remnant
        if high - low < 0.5:
            return []
        text = self._remnant_text()
        half = lettering.width(text, DIMENSION_TEXT) / 2 + INSIDE if text else 0.0
        middle = (low + high) / 2
        spans = [(low, middle - half), (middle + half, high)] if text else [(low, high)]
        return [Hatch(_corners(a, self.top - THICK, b, self.top)) for a, b in spans if b - a > 0.5]

    def notes(self, width: float) -> list[Note]:
        """Label, marks and lengths."""
        notes = [
            Note(
                lettering.shortened(self.bar.label, DIMENSION_TEXT, width),
                (0.0, self.top + LABEL / 2),
                anchor="start",
                bold=True,
            )
        ]
        for cut in self.cuts:
            if cut.fits:
                notes.append(Note(cut.mark, (cut.middle, self.top - 3.4), bold=True))
                notes.append(Note(cut.text, (cut.middle, self.top - 8.4)))
        text, (low, high) = self._remnant_text(), self.remnant
        if text:
            notes.append(Note(text, ((low + high) / 2, self.top - THICK / 2)))
        y = self.top - THICK - BELOW + DIMENSION_TEXT / 2 + 1.0
        return notes + [Note(told, (at, y)) for _, at, told in self.outside()]

    def outside(self) -> list[tuple[list[_Cut], float, str]]:
        """Runs of like cuts too short for their texts, with the middle of the text below and what it says."""
        runs = [list(run) for _, run in groupby(self.cuts, key=lambda cut: (cut.mark, cut.text, cut.fits))]
        short = [run for run in runs if not run[0].fits]
        texts = [
            f"{len(run)} × {run[0].mark}  {run[0].text}" if len(run) > 1 else f"{run[0].mark}  {run[0].text}"
            for run in short
        ]
        wishes = [(run[0].low + run[-1].high) / 2 for run in short]
        places = _spread(
            wishes, [lettering.width(text, DIMENSION_TEXT) for text in texts], self.bar.length_mm * self.factor
        )
        return list(zip(short, places, texts, strict=True))

    def _remnant_text(self) -> str:
        """The length that remains where it has room in the hatching, with a word where that has room too."""
        low, high = self.remnant
        for text in (f"left {self.style.bare(self.bar.remnant_mm)}", self.style.bare(self.bar.remnant_mm)):
            if lettering.width(text, DIMENSION_TEXT) + 2 * INSIDE <= high - low:
                return text
        return ""


def _spread(wishes: list[float], widths: list[float], end: float) -> list[float]:
    """Middles of texts side by side, in order, as near their wishes as room allows, ending before `end` if they can."""
    gap, places, reach = 3.0, [], 0.0
    for wish, width in zip(wishes, widths, strict=True):
        places.append(max(wish, reach + width / 2))
        reach = places[-1] + width / 2 + gap
    limit = max(end, sum(widths) + gap * (len(widths) - 1))
    for number in reversed(range(len(places))):
        places[number] = min(places[number], limit - widths[number] / 2)
        limit = places[number] - widths[number] / 2 - gap
    return places


def _corners(left: float, bottom: float, right: float, top: float) -> np.ndarray[tuple[int, ...], np.dtype[np.float64]]:
    return np.array([[left, bottom], [right, bottom], [right, top], [left, top]])


def _box(left: float, bottom: float, right: float, top: float, kind: LineKind) -> Stroke:
    corners = _corners(left, bottom, right, top)
    return Stroke(np.concatenate([corners, corners[:1]]), kind)


def _unscaled(
    strokes: list[Stroke], hatches: list[Hatch], notes: list[Note], factor: float
) -> tuple[tuple[Stroke, ...], tuple[()], tuple[Hatch, ...], tuple[()], tuple[()], tuple[Note, ...]]:
    """A view's fields with places on the paper turned into its full-size millimetres."""
    return (
        tuple(Stroke(s.points / factor, s.kind) for s in strokes),
        (),
        tuple(Hatch(h.outline / factor, h.spacing) for h in hatches),
        (),
        (),
        tuple(replace(n, at=(n.at[0] / factor, n.at[1] / factor)) for n in notes),
    )
