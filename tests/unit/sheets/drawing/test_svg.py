"""The SVG: well formed, millimetres, text as text, everything on the sheet."""

from __future__ import annotations

import re
from xml.etree import ElementTree

import pytest

from fitwright.sheets.drawing import A4, LineKind, Sketch, TitleBlock, arrangement, to_svg
from fitwright.units import Style
from tests.unit.sheets.drawing.shapes import box

SVG = "{http://www.w3.org/2000/svg}"


def test_sheet_is_at_true_size() -> None:
    root = ElementTree.fromstring(to_svg(arrangement([box("A1", (0, 0, 0), (400, 200, 300))], Style.metric(), (), A4)))
    assert {root.get("width"), root.get("height")} == {"210mm", "297mm"}
    assert root.get("viewBox") == f"0 0 {(root.get('width') or '')[:-2]} {(root.get('height') or '')[:-2]}"


def test_texts_are_text_and_large_enough() -> None:
    block = TitleBlock("Bench & stool <1>", "hut")
    root = ElementTree.fromstring(
        to_svg(arrangement([box("A1", (0, 0, 0), (400, 200, 300))], Style.metric(), (), A4, block))
    )
    sizes = {(t.text or ""): float(t.get("font-size") or 0) for t in root.iter(f"{SVG}text")}
    assert {"400.0", "200.0", "300.0", "A1", "front", "Bench & stool <1>", "first-angle"} <= set(sizes)
    # capitals of the font are 0.718 of its size (Adobe Font Metrics, Helvetica), to be 3.5 mm high
    for shown in ("400.0", "200.0", "300.0", "A1"):
        assert sizes[shown] * 0.718 >= 3.499


def test_lines_have_the_standard_widths() -> None:
    svg = to_svg(arrangement([box("A1", (0, 0, 0), (400, 200, 300))], Style.metric(), (), A4))
    widths = {float(w) for w in re.findall(r'stroke-width="([\d.]+)"', svg)}
    assert widths <= {0.13, 0.18, 0.25, 0.35, 0.5, 0.7}  # ISO 128-2, table of line widths
    assert "#000" in svg
    assert not set(re.findall(r'(?:stroke|fill)="([^"]+)"', svg)) - {"#000", "#fff", "none"}


def test_centre_lines_are_dashed() -> None:
    svg = to_svg(Sketch(Style.metric()).line((0, 0), (100, 0), kind=LineKind.CENTRE).drawing())
    assert "stroke-dasharray" in svg


def test_control_characters_do_not_break_the_document() -> None:
    svg = to_svg(Sketch(Style.metric()).line((0, 0), (100, 0)).text("a\x00b\x1f & <c>", (50, 10)).drawing())
    (text,) = [t.text for t in ElementTree.fromstring(svg).iter(f"{SVG}text")]
    assert text == "ab & <c>"


def test_up_is_up() -> None:
    sketch = Sketch(Style.metric()).line((0, 0), (100, 0)).text("high", (50, 60)).text("low", (50, 20))
    places = {
        t.text: float(t.get("y") or 0) for t in ElementTree.fromstring(to_svg(sketch.drawing())).iter(f"{SVG}text")
    }
    assert places["high"] < places["low"]
    assert places["low"] - places["high"] == pytest.approx(40 * 1.0)
