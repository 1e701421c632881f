"""Frame and title."""

from __future__ import annotations

import numpy as np

from fitwright.sheets.drawing import A4, LETTER, Drawing, TitleBlock
from fitwright.sheets.drawing.clearing import crossed
from fitwright.sheets.drawing.titleblock import room, surround
from tests.unit.sheets.drawing.proof import written_over

LONG = TitleBlock(
    "A very long title of a piece that nobody would write on a sheet of paper",
    job="The hut of the sailing club on the far side of the lake",
    number="2031-117-004-B",
    sheet="11 of 12",
    date="2031-12-24",
    drawn="somebody with a long name",
    units="inches",
)


def test_long_entries_stay_in_their_cells() -> None:
    for paper in (A4, LETTER, A4.turned()):
        ink = surround(Drawing(paper, (), None, LONG, says_projection=True))
        assert written_over(ink) == []
        assert crossed([line.points for line in ink.lines], np.array([text.box for text in ink.texts])) == []


def test_views_keep_clear_of_the_strip() -> None:
    assert room(A4, LONG)[1] > room(A4, None)[1] + 20


def test_it_says_the_projection_only_when_asked() -> None:
    said = [{t.text for t in surround(Drawing(A4, (), None, LONG, says_projection=s)).texts} for s in (True, False)]
    assert "first-angle" in said[0]
    assert "first-angle" not in said[1]
    assert "not to scale" in said[0]
