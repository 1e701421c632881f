"""The general arrangement of a piece: front, side and top with their dimensions, and an isometric with part marks."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import cache, cached_property, partial

import numpy as np
from numpy.typing import NDArray

from fitwright.sheets.drawing import directions
from fitwright.sheets.drawing.composing import Draw, Views, composed, taken
from fitwright.sheets.drawing.dimensions import DimensionRequest, Margins, Side, ViewName, dimensioned, overall
from fitwright.sheets.drawing.directions import Direction, Projection
from fitwright.sheets.drawing.hidden import look, visible
from fitwright.sheets.drawing.lines import tidy
from fitwright.sheets.drawing.marks import marked, spots
from fitwright.sheets.drawing.model import CAPTION_TEXT, Drawing, DrawingError, Note, Stroke, TitleBlock, View
from fitwright.sheets.drawing.paper import A4, Paper
from fitwright.sheets.drawing.pens import LineKind
from fitwright.sheets.drawing.scales import Scale
from fitwright.sheets.drawing.solids import Body, Solids, gather
from fitwright.sheets.drawing.titleblock import room
from fitwright.units import Style

Floats = NDArray[np.float64]
Box = tuple[float, float, float, float]

SMALL = 1 / 15  # below this scale wide lines would run together in the isometric


@dataclass(frozen=True, eq=False)
class Picture:
    """What is seen from one direction, at full size: lines, and places on each marked part."""

    direction: Direction
    strokes: tuple[Stroke, ...]
    spots: dict[str, Floats]

    @cached_property
    def box(self) -> Box:
        """Left, bottom, right and top [mm]."""
        points = np.concatenate([stroke.points for stroke in self.strokes])
        (left, bottom), (right, top) = points.min(axis=0), points.max(axis=0)
        return (float(left), float(bottom), float(right), float(top))


def picture(solids: Solids, direction: Direction, marks: bool = False) -> Picture:
    """The piece seen from a direction, hidden edges removed."""
    seen = look(solids, direction)
    strokes = tuple(Stroke(points) for points in tidy(visible(seen).points))
    return Picture(direction, strokes, spots(seen) if marks else {})


def arrangement(
    meshes: Sequence[Body],
    style: Style,
    dimensions: Sequence[DimensionRequest] = (),
    paper: Paper = A4,
    block: TitleBlock | None = None,
    marks: bool = True,
) -> Drawing:
    """The sheet that shows the whole piece, upright or lying as gives the larger scale.

    dimensions: lengths to show besides the overall width, depth and height.
    Raises SolidsError for meshes that cannot be drawn, DrawingError for a piece too large for any usual scale or a
    dimension in a view that does not show it true.
    """
    solids = gather(meshes)
    views = _views(solids, (*overall(solids.vertices), *dimensions), style, paper.projection, marks)
    tries = [(sheet, composed(views, sheet, room(sheet, block))) for sheet in (paper, paper.turned())]
    found = [(sheet, made) for sheet, made in tries if made]
    if not found:
        raise DrawingError(f"the piece fits on {paper.name} at none of the usual scales: take larger paper")
    sheet, best = max(found, key=lambda pair: (pair[1].scale, pair[1].pictorial))
    return Drawing(sheet, best.views, best.scale, block, says_projection=True)


@dataclass(frozen=True)
class _Set:
    """Which way a view looks, where its dimensions go, and the sides left for marks."""

    direction: Direction
    margins: Margins
    free: tuple[Side, ...]


def _sets(projection: Projection) -> dict[ViewName, _Set]:
    """The three principal views, dimensioned on the sides that face away from one another."""
    third = projection is Projection.THIRD_ANGLE
    return {
        "front": _Set(directions.FRONT, Margins("below", "left"), ("right",)),
        "side": _Set(directions.side(projection), Margins("below", "right"), ("left",)),
        "top": _Set(directions.TOP, Margins("above" if third else "below", "left"), ("right",)),
    }


def _views(
    solids: Solids, requests: Sequence[DimensionRequest], style: Style, projection: Projection, marks: bool
) -> Views:
    """How to draw each view at a scale; each picture is made once, and a view at each scale once."""
    sets = _sets(projection)
    pictorial = picture(solids, directions.ISOMETRIC, marks)
    pictures = {name: picture(solids, made.direction, marks) for name, made in sets.items()}
    elsewhere = _unseen(pictorial, pictures)

    def square(name: ViewName, scale: Scale) -> View:
        shown, made = pictures[name], sets[name]
        asked = [r for r in requests if r.where == name]
        lengths = dimensioned(asked, made.direction, shown.box, scale, style, made.margins)
        told = marked(elsewhere[name], shown.box, scale, made.free)
        view = View(made.direction.name, scale, shown.strokes, dimensions=lengths, marks=told)
        return _captioned(view, shown.box, made.direction.name)

    def isometric(scale: Scale) -> View:
        told = marked(pictorial.spots, pictorial.box, scale)
        kind = LineKind.VISIBLE if scale.factor > SMALL else LineKind.THIN
        strokes = tuple(replace(stroke, kind=kind) for stroke in pictorial.strokes)
        return _captioned(View("isometric", scale, strokes, marks=told), pictorial.box, "isometric, not to scale")

    def once(name: ViewName) -> Draw:
        return cache(partial(square, name))

    return Views(once("front"), once("side"), once("top"), cache(isometric), _bare_size(pictures))


def _bare_size(pictures: dict[ViewName, Picture]) -> tuple[float, float]:
    """Width and height that the three views cover side by side, without anything round them [mm]."""
    front, side, top = (pictures[name].box for name in ("front", "side", "top"))
    return (front[2] - front[0] + side[2] - side[0], front[3] - front[1] + top[3] - top[1])


def _unseen(pictorial: Picture, pictures: dict[ViewName, Picture]) -> dict[ViewName, dict[str, Floats]]:
    """The parts that the isometric does not show, each in the first view that does."""
    done = set(pictorial.spots)
    left: dict[ViewName, dict[str, Floats]] = {}
    for name, shown in pictures.items():
        left[name] = {mark: places for mark, places in shown.spots.items() if mark not in done}
        done |= set(left[name])
    return left


def _captioned(view: View, box: Box, caption: str) -> View:
    """A view with a caption under its picture, below whatever is written there."""
    factor = view.scale.factor
    at = ((box[0] + box[2]) / 2, (taken(view)[1] - 2.5 - CAPTION_TEXT / 2) / factor)
    return replace(view, notes=(*view.notes, Note(caption, at, CAPTION_TEXT)))
