"""The DXF read back: real dimensions that measure, units, layers, a sheet that shows the views."""

from __future__ import annotations

from pathlib import Path

import ezdxf.filemanagement
import numpy as np
import pytest
from ezdxf.document import Drawing as Document
from ezdxf.entities import Dimension
from ezdxf.entities.lwpolyline import LWPolyline
from ezdxf.entities.mtext import MText

from fitwright.sheets.drawing import (
    A4,
    LETTER,
    BarRow,
    Drawing,
    TitleBlock,
    arrangement,
    bars_drawing,
    member_view,
    to_dxf,
)
from fitwright.units import INCH, Style
from tests.unit.sheets.drawing.shapes import box, rack

BLOCK = TitleBlock("Rack", "hut", units="mm")


def reopened(drawing: Drawing, path: Path, style: Style) -> Document:
    to_dxf(drawing, path, style)
    document = ezdxf.filemanagement.readfile(path)
    audit = document.audit()
    assert audit.errors == []
    assert audit.fixes == []
    return document


def dimensions(document: Document) -> list[tuple[str, float, str]]:
    """Text override, what is measured and what is shown."""
    found = []
    for entity in document.modelspace().query("DIMENSION"):
        assert isinstance(entity, Dimension)
        block = entity.get_geometry_block()
        assert block is not None
        (shown,) = [e.text for e in block.query("MTEXT") if isinstance(e, MText)]
        found.append((entity.dxf.text, float(entity.get_measurement()), shown))
    return found


def test_metric_dimensions_measure_and_print_alike(tmp_path: Path) -> None:
    drawing = arrangement([box("A1", (0, 0, 0), (412.2, 203, 331.9))], Style.metric(), (), A4, BLOCK)
    made = dimensions(reopened(drawing, tmp_path / "a.dxf", Style.metric()))
    assert {shown for _, _, shown in made} == {"203.0", "332.0", "412.0"}
    assert {override for override, _, _ in made} == {"<>"}
    assert sorted(measured for _, measured, _ in made) == pytest.approx([203.0, 331.9, 412.2])


def test_inch_dimensions_carry_their_fraction(tmp_path: Path) -> None:
    size = (31.5 * INCH, 19 * INCH, 9.375 * INCH)
    drawing = arrangement([box("A1", (0, 0, 0), size)], Style.inch(), (), LETTER, BLOCK)
    made = dimensions(reopened(drawing, tmp_path / "a.dxf", Style.inch()))
    assert {text: measured for text, measured, _ in made} == {
        "31 1/2": pytest.approx(size[0]),
        "19": pytest.approx(size[1]),
        "9 3/8": pytest.approx(size[2]),
    }
    assert all(text == shown for text, _, shown in made)


def test_units_and_layers(tmp_path: Path) -> None:
    document = reopened(arrangement(rack(), Style.metric(), (), A4, BLOCK), tmp_path / "a.dxf", Style.metric())
    assert document.header["$INSUNITS"] == 4  # millimetres
    assert document.dxfversion >= "AC1024"  # release 2010
    space = document.modelspace()
    assert {e.dxf.layer for e in space} <= {"outlines", "thin", "dimensions", "marks", "text"}
    assert {"outlines", "hidden", "centres", "dimensions"} <= {layer.dxf.name for layer in document.layers}


def test_views_stand_at_full_size(tmp_path: Path) -> None:
    document = reopened(
        arrangement([box("A", (0, 0, 0), (400, 200, 300))], Style.metric(), (), A4), tmp_path / "a.dxf", Style.metric()
    )
    sizes = set()
    for line in document.modelspace().query("LWPOLYLINE[layer=='outlines']"):
        assert isinstance(line, LWPolyline)
        across = np.ptp(np.array(line.get_points("xy")), axis=0)
        sizes.add((round(float(across[0]), 3), round(float(across[1]), 3)))
    assert {(400.0, 300.0), (200.0, 300.0), (400.0, 200.0)} <= sizes


def test_the_sheet_has_a_window_for_each_view(tmp_path: Path) -> None:
    drawing = arrangement([box("A", (0, 0, 0), (400, 200, 300))], Style.metric(), (), A4, BLOCK)
    sheet = reopened(drawing, tmp_path / "a.dxf", Style.metric()).paperspace("sheet")
    windows = [w for w in sheet.query("VIEWPORT") if w.dxf.id != 1]
    assert len(windows) == 4
    scales = sorted(float(w.dxf.height / w.dxf.view_height) for w in windows)
    assert scales == pytest.approx(sorted(v.scale.factor for v in drawing.views))
    assert "Rack" in {t.dxf.text for t in sheet.query("TEXT")}


def test_bend_pictures_keep_arcs_radii_and_angles(tmp_path: Path) -> None:
    drawing = member_view([(0, 0), (300, 0), (450, 260)], [76], 25, Style.metric())
    document = reopened(drawing, tmp_path / "m.dxf", Style.metric())
    assert len(document.modelspace().query("ARC")) == 3
    shown = {s for _, _, s in dimensions(document)}
    assert {"R 76.0", "60.0°"} <= shown


def test_bars(tmp_path: Path) -> None:
    drawing = bars_drawing([BarRow("Bar 1", 6000, (("A1", 2500.0), ("A2", 1500.0)), 1990.0)], Style.metric())
    document = reopened(drawing, tmp_path / "b.dxf", Style.metric())
    assert len(document.modelspace().query("HATCH")) == 2


def test_a_folder_that_is_not_there_is_told(tmp_path: Path) -> None:
    with pytest.raises(OSError):
        to_dxf(member_view([(0, 0), (300, 0)], [], 25, Style.metric()), tmp_path / "none" / "m.dxf")
