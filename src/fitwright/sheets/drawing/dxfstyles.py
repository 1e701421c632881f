"""Layers, line types and dimension styles of our DXF files."""

from __future__ import annotations

from typing import TYPE_CHECKING

from fitwright.sheets.drawing.ink import ARROW, GAP, OVERSHOOT, TEXT_GAP
from fitwright.sheets.drawing.model import DIMENSION_TEXT
from fitwright.sheets.drawing.pens import NARROW, PENS, LineKind
from fitwright.units import Style

if TYPE_CHECKING:
    from ezdxf.document import Drawing as Document

LAYERS = {
    LineKind.VISIBLE: "outlines",
    LineKind.HIDDEN: "hidden",
    LineKind.CENTRE: "centres",
    LineKind.THIN: "thin",
    LineKind.FRAME: "sheet",
}
TEXT_LAYERS = ("dimensions", "marks", "text", "hatching")
TEXT_STYLE = "lettering"
FONT = "arial.ttf"


def prepared(document: Document) -> None:
    """Give a new document our layers, line types and text style."""
    document.styles.add(TEXT_STYLE, font=FONT)
    for kind, pen in PENS.items():
        if pen.dashes:
            signs = [length if number % 2 == 0 else -length for number, length in enumerate(pen.dashes)]
            document.linetypes.add(LAYERS[kind], [sum(pen.dashes), *signs], description=kind.value)
        line = LAYERS[kind] if pen.dashes else "Continuous"
        document.layers.add(LAYERS[kind], linetype=line, lineweight=round(pen.width * 100))
    for name in TEXT_LAYERS:
        document.layers.add(name, lineweight=round(NARROW * 100))
    document.layers.add("windows", plot=False)
    document.header["$LTSCALE"] = 1.0
    document.header["$PSLTSCALE"] = 1  # dashes as long on the sheet whatever a window's scale
    document.header["$MEASUREMENT"] = 1


def dimension_style(document: Document, name: str, factor: float, style: Style) -> None:
    """A dimension style for views drawn `factor` mm of paper to the mm (ISO 129-1: text over an unbroken line)."""
    if name in document.dimstyles:
        return
    made = document.dimstyles.add(name)
    attributes = {
        "dimscale": 1 / factor,
        "dimtxt": DIMENSION_TEXT,
        "dimasz": ARROW,
        "dimexo": GAP,
        "dimexe": OVERSHOOT,
        "dimgap": TEXT_GAP,
        "dimtad": 1,
        "dimtih": 0,
        "dimtoh": 0,
        "dimtmove": 2,
        "dimlfac": 1.0,
        "dimlunit": 2,
        "dimdec": 1,
        "dimrnd": 0.0 if style.unit == "inch" else style.step_mm,
        "dimzin": 0,
        "dimadec": 1,
        "dimazin": 0,
        "dimdsep": ord("."),
        "dimtxsty": TEXT_STYLE,
    }
    for key, value in attributes.items():
        made.dxf.set(key, value)
