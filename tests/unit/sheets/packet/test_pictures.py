from __future__ import annotations

import pytest

from fitwright.sheets.drawing import BarRow, Sketch, bars_drawing
from fitwright.sheets.packet.pictures import (
    LETTERING,
    alone,
    fitted,
    packet_svg,
    texts_fit,
    without_texts_beside,
)
from fitwright.units import Style

STYLE = Style.metric()


def _bar(count: int) -> BarRow:
    return BarRow("bar", 6000.0, tuple((f"A{k}", 150.0 + k) for k in range(count)), 500.0)


def test_letters_are_those_that_the_typesetter_carries() -> None:
    svg = packet_svg(Sketch(STYLE).line((0, 0), (100, 0)).width((0, 0), (100, 0)).drawing())
    assert f'font-family="{LETTERING}"' in svg
    assert svg.count("font-family") == 1


def test_a_fitted_picture_fills_its_room_better_than_the_usual_scale() -> None:
    sketch = Sketch(STYLE).polyline([(0, 0), (1100, 0), (1100, 700), (0, 700)], closed=True).width((0, 0), (1100, 0))
    room = (170.0, 110.0)
    usual, picture = sketch.drawing(room), fitted(sketch, room)
    assert picture.paper.width > usual.paper.width
    assert picture.paper.width <= room[0]
    assert picture.paper.height <= room[1]


def test_a_view_alone_has_no_dimensions_and_fits() -> None:
    drawing = Sketch(STYLE).line((0, 0), (1000, 500)).width((0, 0), (1000, 0)).drawing()
    picture = alone(drawing.views[0], (80.0, 80.0))
    assert picture.paper.width == pytest.approx(82.0, abs=0.01)
    assert picture.paper.height == pytest.approx(42.0, abs=0.01)
    assert picture.views[0].dimensions == ()


def test_texts_of_few_cuts_fit_and_of_many_short_ones_do_not() -> None:
    assert texts_fit(bars_drawing([_bar(3)], STYLE, 180.0))
    assert not texts_fit(bars_drawing([_bar(30)], STYLE, 180.0))


def test_a_bar_without_the_texts_beside_it_keeps_its_cuts_and_label() -> None:
    full = bars_drawing([_bar(30)], STYLE, 180.0)
    bare = without_texts_beside(full)
    assert texts_fit(bare)
    assert bare.paper.height < full.paper.height
    assert len(bare.views[0].notes) == 2  # the label and what is left
    assert sum(len(stroke.points) == 2 for stroke in bare.views[0].strokes) >= 30
