"""One drawing model put out as SVG and DXF: arrangements with hidden edges removed, bent parts, cutting plans."""

from fitwright.sheets.drawing.arrangement import arrangement
from fitwright.sheets.drawing.bars import BarRow, bars_drawing
from fitwright.sheets.drawing.dimensions import DimensionRequest
from fitwright.sheets.drawing.dxf import to_dxf
from fitwright.sheets.drawing.member import member_sketch, member_view
from fitwright.sheets.drawing.model import Drawing, DrawingError, TitleBlock
from fitwright.sheets.drawing.paper import A3, A4, LETTER, Paper
from fitwright.sheets.drawing.pens import LineKind
from fitwright.sheets.drawing.sketch import Sketch
from fitwright.sheets.drawing.svg import to_svg

__all__ = [
    "A3",
    "A4",
    "LETTER",
    "BarRow",
    "DimensionRequest",
    "Drawing",
    "DrawingError",
    "LineKind",
    "Paper",
    "Sketch",
    "TitleBlock",
    "arrangement",
    "bars_drawing",
    "member_sketch",
    "member_view",
    "to_dxf",
    "to_svg",
]
