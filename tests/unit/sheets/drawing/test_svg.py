"""The SVG: well formed, millimetres, text as text, everything on the sheet."""

from __future__ import annotations

import re
from fractions import Fraction
from xml.etree import ElementTree

import numpy as np
import pytest

from fitwright.sheets.drawing import A4, LineKind, Sketch, TitleBlock, arrangement, to_svg
from fitwright.sheets.drawing import svg as svg_module
from fitwright.sheets.drawing.scales import Scale
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


def test_places_are_written_to_a_thousandth_and_short() -> None:
    points = [(0.0, 0.0), (-0.0004, 100.0004), (12.34, 99.9996), (100.0, -20.5), (1000.1234, 0.0005), (-10.0, 110.0)]
    svg = to_svg(Sketch(Style.metric()).polyline(points).drawing(scale=Scale(Fraction(1))))
    (path,) = re.findall(r'class="visible"[^>]* d="([^"]+)"', svg)
    assert re.fullmatch(r"M[^ML]+(L[^ML]+)+", path)
    left, top = 10 + 1, 110 + 1  # the picture's corner, with a millimetre of paper beside it
    written = [tuple(number.split()) for number in path[1:].split("L")]
    expected = [(round(x + left, 3), round(top - y, 3)) for x, y in points]
    assert np.array(written, dtype=float) == pytest.approx(np.array(expected), abs=1e-9)
    assert {len(place) for place in written} == {2}
    assert all(
        re.fullmatch(r"0|-?\d*[1-9]|-?[1-9]\d*|-?\d+\.\d{0,2}[1-9]", number) for place in written for number in place
    )


def test_nothing_is_not_written_as_less_than_nothing() -> None:
    lines = [np.array([[-0.0001, 50.0001], [10.0, 40.5]]), np.array([[0.0, 50.0], [-0.25, 0.0]])]
    assert svg_module._path(lines, 50.0) == "M0 0L10 9.5M0 0L-0.25 50"
    assert svg_module._path(lines[1:], 50.0, "Z") == "M0 0L-0.25 50Z"
    assert svg_module._path([], 50.0) == ""
