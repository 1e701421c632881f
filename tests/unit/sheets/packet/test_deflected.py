from __future__ import annotations

from datetime import date
from functools import cache

import numpy as np
import pytest

from fitwright.sheets.drawing import A4, LineKind
from fitwright.sheets.drawing.directions import ISOMETRIC
from fitwright.sheets.drawing.model import View
from fitwright.sheets.packet.deflected import Bent, bent_by, bent_picture, round_factor
from fitwright.sheets.packet.pages.arranging import arrangement_drawing
from tests.demos import assessed

RAIL = "coat-rail"
ROOM = (92.0, 94.0)


@cache
def _bent() -> Bent:
    results = assessed(RAIL).frame
    assert results is not None
    return bent_by(results, 1, (0, 0))


def _isometric() -> View:
    whole = arrangement_drawing(assessed(RAIL), A4, date(2027, 1, 5))
    return next(view for view in whole.views if view.name == "isometric")


@pytest.mark.parametrize(("factor", "told"), [(17.6, 10.0), (5.0, 5.0), (4.99, 2.0), (1.0, 1.0), (0.0432, 0.02)])
def test_exaggerations_are_round_and_no_larger(factor: float, told: float) -> None:
    assert round_factor(factor) == told


def test_ends_are_moved_by_the_factor_told() -> None:
    bent = _bent()
    away = np.linalg.norm(bent.ends - bent.results.framed.model.ends, axis=2)
    assert away.max() == pytest.approx(bent.factor * bent.movement)
    assert away[bent.most] == away.max()


def test_the_bent_lines_are_thick_and_every_member_has_one() -> None:
    bent = _bent()
    (view,) = bent_picture(bent, _isometric(), assessed(RAIL).job.style, ROOM).views
    thick = [stroke for stroke in view.strokes if stroke.kind is LineKind.FRAME]
    assert len(thick) == len(bent.results.framed.elements_of)
    assert {stroke.kind for stroke in view.strokes} == {LineKind.FRAME, LineKind.THIN}
    drawn = np.concatenate([stroke.points for stroke in thick])
    place = ISOMETRIC.flat(bent.ends[bent.most])
    assert np.linalg.norm(drawn - place, axis=1).min() < 1e-9
    assert [mark.text for mark in view.marks] == ["moves most", "most stressed"]
    assert view.marks[0].anchor == pytest.approx(place)


def test_the_picture_stays_in_its_room() -> None:
    drawing = bent_picture(_bent(), _isometric(), assessed(RAIL).job.style, ROOM)
    assert drawing.paper.width <= ROOM[0] + 2
    assert drawing.paper.height <= ROOM[1] + 2
