"""Drawings made by hand."""

from __future__ import annotations

from fractions import Fraction
from math import pi

import numpy as np
import pytest

from fitwright.sheets.drawing import A4, DrawingError, Sketch, TitleBlock
from fitwright.sheets.drawing.ink import Pencil, extent
from fitwright.sheets.drawing.model import Hatch
from fitwright.sheets.drawing.scales import Scale
from fitwright.sheets.drawing.svg import inked
from fitwright.units import Style
from tests.unit.sheets.drawing.proof import written_over


def plate() -> Sketch:
    sketch = Sketch(Style.metric(), "plate")
    sketch.polyline([(0, 0), (200, 0), (200, 120), (0, 120)], closed=True).circle((60, 60), 20).hatch(
        [(150, 20), (190, 20), (190, 60)]
    )
    return sketch.width((0, 0), (60, 0)).width((0, 0), (200, 0)).height((0, 0), (0, 120)).height((0, 0), (0, 60))


def test_rows_stand_outside_and_apart() -> None:
    drawing = plate().radius((60, 60), 20, pi / 4).mark("P1", (120, 100)).drawing((180, 120))
    assert written_over(inked(drawing)) == []
    assert sorted(d.text for d in drawing.views[0].dimensions) == ["120.0", "200.0", "60.0", "60.0", "R 20.0"]


def test_it_fits_the_room_at_the_largest_usual_scale() -> None:
    drawing = plate().drawing((180, 120))
    assert drawing.scale is not None
    assert drawing.scale.label == "1:2"
    left, bottom, right, top = extent(inked(drawing))
    assert left >= 0
    assert bottom >= 0
    assert right <= drawing.paper.width
    assert top <= drawing.paper.height


def test_on_a_sheet_it_lies_inside_the_frame() -> None:
    drawing = plate().sheet(A4, TitleBlock("Plate"))
    left, bottom, right, top = extent(inked(drawing))
    assert (left, bottom, right, top) == pytest.approx((10, 10, 200, 287))


def test_marks_make_room_for_one_another() -> None:
    sketch = Sketch(Style.metric()).line((0, 0), (300, 0))
    for number in range(4):
        sketch.mark(f"M{number}", (100 + 2 * number, 0))
    assert [f for f in written_over(inked(sketch.drawing())) if " over " in f] == []


def test_a_length_along_a_slant_reads_from_below_or_right() -> None:
    sketch = Sketch(Style.metric()).line((0, 0), (-300, 400)).along((0, 0), (-300, 400))
    (text,) = inked(sketch.drawing()).texts
    assert text.text == "500.0"
    assert -pi / 2 < text.angle <= pi / 2


def test_nothing_drawn_is_refused() -> None:
    with pytest.raises(DrawingError, match="without lines"):
        Sketch(Style.metric()).drawing()


def test_a_length_of_nothing_is_refused() -> None:
    with pytest.raises(DrawingError, match="no direction"):
        Sketch(Style.metric()).line((0, 0), (5, 0)).along((1, 1), (1, 1)).drawing()


def test_too_large_is_refused() -> None:
    with pytest.raises(DrawingError, match="none of the usual scales"):
        Sketch(Style.metric()).line((0, 0), (1e7, 0)).drawing()


def test_scales_that_the_bare_picture_is_too_large_for_are_not_tried() -> None:
    sketch = Sketch(Style.metric()).line((0, 0), (200, 100)).text("beside it", (400, 50))
    tried = [Scale(Fraction(1, ratio)) for ratio in (1, 2, 4, 5)]
    assert [scale.label for scale in sketch.bare_fits(tried, (100, 60))] == ["1:2", "1:4", "1:5"]
    assert [scale.label for scale in sketch.bare_fits(tried, (100, 24.9))] == ["1:5"]


def test_hatching_fills_its_outline_and_no_more() -> None:
    square = np.array([[0.0, 0.0], [10.0, 0.0], [10.0, 10.0], [0.0, 10.0]])
    lines = [line.points for line in Pencil((0.0, 0.0), 1.0).hatch(Hatch(square, 2.0)).lines]
    reach = [(line[:, 1] - line[:, 0]) / 2**0.5 for line in lines]
    assert [ends.round(9).tolist() for ends in reach] == [[at, at] for at in (-6.0, -4.0, -2.0, 0.0, 2.0, 4.0, 6.0)]
    lengths = [float(np.hypot(*(line[1] - line[0]))) for line in lines]
    assert lengths == pytest.approx([200**0.5 - 2 * abs(at) for at in (-6, -4, -2, 0, 2, 4, 6)])
