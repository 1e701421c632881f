"""The piece in a row for a client: from the front, from the side, from above where there is room, and as it looks."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cached_property

from fitwright.sheets.drawing import Drawing, DrawingError, Paper, directions
from fitwright.sheets.drawing.arrangement import Picture, picture
from fitwright.sheets.drawing.composing import taken
from fitwright.sheets.drawing.dimensions import DimensionRequest, Margins, ViewName, dimensioned, overall
from fitwright.sheets.drawing.directions import Projection
from fitwright.sheets.drawing.model import SMALL_TEXT, LinearDimension, Note, View
from fitwright.sheets.drawing.pens import LineKind
from fitwright.sheets.drawing.scales import Scale, scales
from fitwright.sheets.drawing.solids import Body, gather
from fitwright.units import Style

APART = 9.0  # between views [mm]
BELOW = 3.0  # of a caption under its view [mm]
WORTH = 0.8  # the view from above is shown where the others stay at least so large
MARGINS: dict[ViewName, Margins] = {"front": Margins("below", "left"), "side": Margins("below", "right"),
                                    "top": Margins("below", "left")}  # fmt: skip
WORDS = {"front": "from the front", "side": "from the side", "top": "from above", "isometric": "as it looks"}
ROUND = Scale(Fraction(1, 10))


@dataclass(frozen=True, eq=False)
class Strip:
    """The piece's pictures, to be set in rows of any size."""

    meshes: Sequence[Body]
    style: Style
    projection: Projection

    @cached_property
    def _pictures(self) -> dict[str, Picture]:
        solids = gather(self.meshes)
        seen = {"front": directions.FRONT, "side": directions.side(self.projection), "top": directions.TOP}
        return {name: picture(solids, way) for name, way in {**seen, "isometric": directions.ISOMETRIC}.items()}

    @cached_property
    def _asked(self) -> tuple[DimensionRequest, ...]:
        return overall(gather(self.meshes).vertices)

    def whole(self, paper: Paper) -> Drawing:
        """All views, for who takes one out of them."""
        return Drawing(paper, tuple(self._view(name, ROUND) for name in self._pictures), None)

    def row(self, wide: float, high: float, paper: Paper) -> Drawing:
        """The views in a row in a strip of paper [mm].

        Raises DrawingError for a piece that fits at no usual scale.
        """
        three, four = (self._best(names, wide, high, paper) for names in (SHORT, LONG))
        if three is None:
            raise DrawingError(f"the piece fits into {wide:.0f} by {high:.0f} mm at none of the usual scales")
        if four is not None and four[0].factor >= WORTH * three[0].factor:
            three = four
        scale, views = three
        return _set(views, scale, wide, high, paper)

    def _best(self, names: Sequence[str], wide: float, high: float, paper: Paper) -> tuple[Scale, list[View]] | None:
        for scale in scales(paper.practice):
            if self._bare(names, scale) > wide:
                continue
            views = [self._view(name, scale) for name in names]
            sizes = [taken(view) for view in views]
            across = sum(right - left for left, _, right, _ in sizes) + APART * (len(views) - 1)
            if across <= wide and max(top - bottom for _, bottom, _, top in sizes) <= high:
                return scale, views
        return None

    def _bare(self, names: Sequence[str], scale: Scale) -> float:
        boxes = [self._pictures[name].box for name in names]
        return sum(box[2] - box[0] for box in boxes) * scale.factor

    def _view(self, name: str, scale: Scale) -> View:
        shown = self._pictures[name]
        kind = LineKind.VISIBLE if scale.factor > 1 / 16 else LineKind.THIN
        strokes = tuple(replace(stroke, kind=kind) for stroke in shown.strokes)
        lengths: tuple[LinearDimension, ...] = ()
        if name in MARGINS:
            asked = [request for request in self._asked if request.where == name]
            lengths = dimensioned(asked, shown.direction, shown.box, scale, self.style, MARGINS[name])
        view = View(name, scale, strokes, dimensions=lengths)
        at = ((shown.box[0] + shown.box[2]) / 2, (taken(view)[1] - BELOW) / scale.factor)
        return replace(view, notes=(Note(WORDS[name], at, SMALL_TEXT),))


SHORT = ("front", "side", "isometric")
LONG = ("front", "side", "top", "isometric")


def _set(views: Sequence[View], scale: Scale, wide: float, high: float, paper: Paper) -> Drawing:
    """The views side by side, standing on one line, in a picture no larger than they are."""
    sizes = [taken(view) for view in views]
    low, top = min(size[1] for size in sizes), max(size[3] for size in sizes)
    across = sum(size[2] - size[0] for size in sizes)
    apart = min((wide - across) / max(len(views), 1), 2 * APART)
    placed, x = [], 0.0
    for view, (left, bottom, right, _) in zip(views, sizes, strict=True):
        placed.append(replace(view, origin=(x - left, -low if view.name in ("front", "side") else -bottom)))
        x += right - left + apart
    sheet = replace(paper, name="strip", width=x - apart, height=min(top - low, high), margin=0.0)
    return Drawing(sheet, tuple(placed), scale, framed=False)
