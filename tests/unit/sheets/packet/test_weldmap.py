from __future__ import annotations

from datetime import date

import numpy as np
import pytest

from fitwright.making.welding import MapPoint
from fitwright.sheets.drawing import A4, DrawingError
from fitwright.sheets.drawing.directions import ISOMETRIC
from fitwright.sheets.drawing.model import View
from fitwright.sheets.packet.pages.arranging import arrangement_drawing
from fitwright.sheets.packet.weldmap import label, weld_map
from tests.unit.sheets.packet.jobs import stand

ROOM = (180.0, 100.0)


def _isometric() -> View:
    whole = arrangement_drawing(stand(), A4, date(2027, 1, 5))
    return next(view for view in whole.views if view.name == "isometric")


def _points(count: int) -> list[MapPoint]:
    return [MapPoint(k, np.array([16.0, 30.0 * k, 300.0]), (k, k + count), "") for k in range(1, count + 1)]


def test_a_place_carries_its_weld_and_its_runs() -> None:
    assert label(MapPoint(15, np.zeros(3), (1, 27), "")) == "15: 1, 27"


def test_every_weld_is_marked_where_it_is() -> None:
    points = _points(5)
    drawing = weld_map(points, _isometric(), ROOM)
    marks = {mark.text: mark.anchor for mark in drawing.views[0].marks}
    assert set(marks) == {label(point) for point in points}
    for point in points:
        assert marks[label(point)] == pytest.approx(ISOMETRIC.flat(point.at))
    assert drawing.paper.width <= ROOM[0] + 2
    assert drawing.paper.height <= ROOM[1] + 2


def test_more_numbers_than_room_are_refused() -> None:
    with pytest.raises(DrawingError, match=r"the weld map fits 180 x 100 mm at none"):
        weld_map(_points(80), _isometric(), ROOM)
