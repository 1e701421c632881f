"""A drawing as DXF: model space at full size in millimetres with real dimensions, and the sheet as a paper layout."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from math import atan2, degrees, pi
from pathlib import Path
from typing import TYPE_CHECKING

import numpy as np

from fitwright.sheets.drawing.composing import taken
from fitwright.sheets.drawing.dxfstyles import LAYERS, TEXT_STYLE, dimension_style, prepared
from fitwright.sheets.drawing.ink import Ink, Pencil, upright
from fitwright.sheets.drawing.model import (
    AngleDimension,
    Dimension,
    Drawing,
    LinearDimension,
    Point,
    RadiusDimension,
    View,
)
from fitwright.sheets.drawing.titleblock import surround
from fitwright.units import Style

if TYPE_CHECKING:
    from ezdxf.document import Drawing as Document
    from ezdxf.layouts.base import BaseLayout
    from ezdxf.layouts.layout import Modelspace, Paperspace


def to_dxf(drawing: Drawing, path: Path | str, style: Style | None = None) -> None:
    """Write the drawing as a DXF of release 2010 that any CAD program opens.

    Each view stands in model space at full size, millimetres; the layout `sheet` shows them at their scales with the
    title. Dimensions are DIMENSION entities that measure; their text is left to the program where it would print the
    same, and fixed where it is in fractions of an inch.
    style: how the lengths were printed; metric to 0.5 mm when not told.
    Raises OSError when the file cannot be written.
    """
    from ezdxf.filemanagement import new

    document = new("R2010", units=4)  # 4: millimetres, header variable INSUNITS
    prepared(document)
    placed = list(_spread_out(drawing))
    for view, _ in placed:
        dimension_style(document, _style_name(view), view.scale.factor, style or Style.metric())
        _view(document.modelspace(), view)
    _sheet(document, drawing, placed)
    document.saveas(path)


def _style_name(view: View) -> str:
    return f"{view.name or 'view'} {view.scale.ratio.numerator}-{view.scale.ratio.denominator}"[:200]


def _spread_out(drawing: Drawing) -> Iterator[tuple[View, View]]:
    """Each view with its origin where it stands in model space, and as it stands on the sheet.

    Views at the sheet's scale keep their order in line; one at another scale goes to the right of all.
    """
    main = drawing.scale or drawing.views[0].scale
    right = 0.0
    later = []
    for view in drawing.views:
        if view.scale != main:
            later.append(view)
            continue
        at = (view.origin[0] / main.factor, view.origin[1] / main.factor)
        right = max(right, at[0] + taken(view)[2] / main.factor)
        yield replace(view, origin=at), view
    for view in later:
        left, bottom, end, _ = (side / view.scale.factor for side in taken(view))
        at = (right + 20 / main.factor - left, -bottom)
        right = at[0] + end
        yield replace(view, origin=at), view


def _view(space: Modelspace, view: View) -> None:
    """A view's lines, dimensions, marks and notes at full size."""
    _picture(space, view)
    for dimension in view.dimensions:
        _dimension(space, view, dimension)
    pencil, back = Pencil((0.0, 0.0), view.scale.factor), 1 / view.scale.factor
    for mark in view.marks:
        _ink(space, pencil.mark(mark), "marks", view.origin, back)
    for note in view.notes:
        _ink(space, Ink(texts=(pencil.note(note),)), "text", view.origin, back)


def _picture(space: Modelspace, view: View) -> None:
    """Lines, arcs and hatching."""
    origin = np.array(view.origin)
    for stroke in view.strokes:
        space.add_lwpolyline((stroke.points + origin).tolist(), dxfattribs={"layer": LAYERS[stroke.kind]})
    for arc in view.arcs:
        centre, layer = _moved(arc.centre, view), {"layer": LAYERS[arc.kind]}
        if arc.end - arc.start > 2 * pi - 1e-9:
            space.add_circle(centre, arc.radius, dxfattribs=layer)
        else:
            space.add_arc(centre, arc.radius, degrees(arc.start), degrees(arc.end), dxfattribs=layer)
    for hatch in view.hatches:
        filled = space.add_hatch(dxfattribs={"layer": "hatching"})
        # ANSI31 has its lines 3.175 mm apart at scale 1
        filled.set_pattern_fill("ANSI31", scale=hatch.spacing / 3.175 / view.scale.factor)
        filled.paths.add_polyline_path((hatch.outline + origin).tolist(), is_closed=True)


def _dimension(space: Modelspace, view: View, dimension: Dimension) -> None:
    """A DIMENSION entity that measures, its text where it was placed."""
    name, text, layer = _style_name(view), _override(dimension), {"layer": "dimensions"}
    at = _moved(dimension.text_at, view)
    if isinstance(dimension, LinearDimension):
        space.add_linear_dim(
            _moved(dimension.base, view),
            _moved(dimension.start, view),
            _moved(dimension.end, view),
            location=at,
            text=text,
            angle=degrees(upright(atan2(dimension.along[1], dimension.along[0]))),
            dimstyle=name,
            dxfattribs=layer,
        ).render()
    elif isinstance(dimension, RadiusDimension):
        space.add_radius_dim(
            _moved(dimension.centre, view),
            radius=dimension.value,
            angle=degrees(dimension.at_angle),
            location=at,
            text=text,
            dimstyle=name,
            override={"dimtih": 1, "dimtoh": 1},
            dxfattribs=layer,
        ).render()
    else:
        space.add_angular_dim_cra(
            _moved(dimension.vertex, view),
            dimension.radius,
            degrees(dimension.start),
            degrees(dimension.end),
            distance=0.0,
            location=at,
            text=text,
            text_rotation=0.0,
            dimstyle=name,
            dxfattribs=layer,
        ).render()


def _moved(point: Point, view: View) -> Point:
    """A place in the view as a place in model space."""
    return (point[0] + view.origin[0], point[1] + view.origin[1])


def _override(dimension: Dimension) -> str:
    """`<>`, what the program measures, unless the text printed here is something else."""
    printed = dimension.text
    if isinstance(dimension, LinearDimension) and _is_decimal(printed):
        return "<>"
    if isinstance(dimension, AngleDimension) and printed == f"{degrees(dimension.value):.1f}°":
        return "<>"
    return printed


def _is_decimal(text: str) -> bool:
    return text.replace(".", "", 1).isdigit() and "." in text


def _ink(space: BaseLayout, ink: Ink, layer: str, origin: tuple[float, float], factor: float) -> None:
    """Lines, fills and texts in millimetres of paper, put out `factor` times as large from an origin."""
    from ezdxf.enums import TextEntityAlignment

    dx, dy = origin
    for line in ink.lines:
        space.add_lwpolyline(
            [(x * factor + dx, y * factor + dy) for x, y in line.points.tolist()], dxfattribs={"layer": layer}
        )
    for fill in ink.fills:
        solid = space.add_hatch(dxfattribs={"layer": layer})
        solid.paths.add_polyline_path(
            [(x * factor + dx, y * factor + dy) for x, y in fill.points.tolist()], is_closed=True
        )
    align = {
        "start": TextEntityAlignment.MIDDLE_LEFT,
        "middle": TextEntityAlignment.MIDDLE_CENTER,
        "end": TextEntityAlignment.MIDDLE_RIGHT,
    }
    for text in ink.texts:
        made = space.add_text(
            text.text,
            height=text.height * factor,
            rotation=degrees(text.angle),
            dxfattribs={"layer": layer, "style": TEXT_STYLE},
        )
        made.set_placement((text.at[0] * factor + dx, text.at[1] * factor + dy), align=align[text.anchor])


def _sheet(document: Document, drawing: Drawing, placed: list[tuple[View, View]]) -> None:
    """The paper layout: a window on each view at its scale, the frame and the title."""
    sheet: Paperspace = _layout(document, drawing)
    for model, paper in placed:
        left, bottom, right, top = taken(paper)
        factor = paper.scale.factor
        middle = ((left + right) / 2, (bottom + top) / 2)
        window = sheet.add_viewport(
            center=(paper.origin[0] + middle[0], paper.origin[1] + middle[1]),
            size=(right - left + 4, top - bottom + 4),
            view_center_point=(model.origin[0] + middle[0] / factor, model.origin[1] + middle[1] / factor),
            view_height=(top - bottom + 4) / factor,
        )
        window.dxf.layer = "windows"
    _ink(sheet, surround(drawing), "sheet", (0.0, 0.0), 1.0)


def _layout(document: Document, drawing: Drawing) -> Paperspace:
    document.layouts.rename("Layout1", "sheet")
    sheet: Paperspace = document.paperspace("sheet")
    sheet.page_setup(size=(drawing.paper.width, drawing.paper.height), margins=(0, 0, 0, 0), units="mm")
    return sheet
