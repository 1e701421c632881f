"""The general arrangement: views in place, lengths shown, nothing written over anything."""

from __future__ import annotations

from itertools import pairwise

import numpy as np
import pytest

from fitwright.sheets.drawing import (
    A3,
    A4,
    LETTER,
    DimensionRequest,
    Drawing,
    DrawingError,
    Paper,
    TitleBlock,
    arrangement,
)
from fitwright.sheets.drawing.ink import extent, of_view
from fitwright.sheets.drawing.model import LinearDimension
from fitwright.sheets.drawing.svg import inked
from fitwright.units import Style
from tests.unit.sheets.drawing.proof import leaders_crossing, written_over
from tests.unit.sheets.drawing.shapes import Shape, box, rack

BLOCK = TitleBlock("Drying rack", "hut", "001", "1 of 6", "", "", "mm")
LEVELS = [260.0, 660.0, 1060.0, 1460.0]


def levels() -> list[DimensionRequest]:
    floor = [DimensionRequest((0, 0, 0), (0, 0, z), "z") for z in LEVELS]
    steps = [DimensionRequest((0, 0, a), (0, 0, b), "z") for a, b in pairwise(LEVELS)]
    clear = DimensionRequest((28.6, 0, 260), (771.4, 0, 260), "x")
    foot = DimensionRequest((-6, 0, 0), (34, 0, 0), "x")
    return [*floor, *steps, clear, foot, DimensionRequest((800, 28.6, 300), (800, 454, 300), "y")]


def view(drawing: Drawing, name: str) -> int:
    return [v.name for v in drawing.views].index(name)


def texts(drawing: Drawing, name: str) -> list[str]:
    return [d.text for d in drawing.views[view(drawing, name)].dimensions]


@pytest.fixture(scope="module")
def bodies() -> list[Shape]:
    return rack()


@pytest.mark.parametrize(("paper", "style"), [(LETTER, Style.inch()), (A4, Style.metric()), (A3, Style.metric())])
def test_nothing_is_written_over_anything(bodies: list[Shape], paper: Paper, style: Style) -> None:
    drawing = arrangement(bodies, style, levels(), paper, BLOCK)
    ink = inked(drawing)
    assert written_over(ink) == []
    assert leaders_crossing(drawing) == []
    left, bottom, right, top = extent(ink)
    assert left >= paper.margin - 1e-6
    assert bottom >= paper.margin - 1e-6
    assert right <= drawing.paper.width - paper.margin + 1e-6
    assert top <= drawing.paper.height - paper.margin + 1e-6


def test_views_do_not_overlap(bodies: list[Shape]) -> None:
    drawing = arrangement(bodies, Style.metric(), levels(), A4, BLOCK)
    rects = [extent(of_view(v)) for v in drawing.views]
    for i, a in enumerate(rects):
        for b in rects[:i]:
            assert a[0] >= b[2] or b[0] >= a[2] or a[1] >= b[3] or b[1] >= a[3]


def test_overall_sizes_are_those_of_the_vertices(bodies: list[Shape]) -> None:
    drawing = arrangement(bodies, Style.metric(), (), A3, BLOCK)
    low, high = (f(np.concatenate([b.vertices for b in bodies]), axis=0) for f in (np.min, np.max))
    printed = [Style.metric().bare(v) for v in high - low]
    assert texts(drawing, "front") == [printed[0], printed[2]]
    assert texts(drawing, "left side") == [printed[1]]


def test_dimensions_measure_what_they_print(bodies: list[Shape]) -> None:
    drawing = arrangement(bodies, Style.inch(), levels(), LETTER, BLOCK)
    lengths = [d for v in drawing.views for d in v.dimensions if isinstance(d, LinearDimension)]
    assert len(lengths) == 3 + 4 + 2 + 1 + 2 + 1
    for d in lengths:
        measured = abs(np.dot(np.subtract(d.end, d.start), d.along))
        assert measured == pytest.approx(d.value, abs=1e-6)
        assert d.text == Style.inch().bare(d.value)


def test_third_angle_puts_top_above_and_right_side_right() -> None:
    bodies = [box("A", (0, 0, 0), (400, 200, 300))]
    drawing = arrangement(bodies, Style.inch(), (), LETTER)
    front, side, top = (drawing.views[view(drawing, n)].origin for n in ("front", "right side", "top"))
    assert top[0] == pytest.approx(front[0])
    assert top[1] > front[1]
    assert side[1] == pytest.approx(front[1])
    assert side[0] > front[0]


def test_first_angle_puts_top_below_and_left_side_right() -> None:
    drawing = arrangement([box("A", (0, 0, 0), (400, 200, 300))], Style.metric(), (), A4)
    front, side, top = (drawing.views[view(drawing, n)].origin for n in ("front", "left side", "top"))
    assert top[0] == pytest.approx(front[0])
    assert top[1] < front[1]
    assert side[0] > front[0]


def test_every_mark_is_told_once(bodies: list[Shape]) -> None:
    drawing = arrangement(bodies, Style.metric(), (), A4, BLOCK)
    told = [m.text for v in drawing.views for m in v.marks]
    assert sorted(told) == sorted({b.mark for b in bodies})


def test_a_part_hidden_in_the_isometric_is_marked_where_it_is_seen() -> None:
    # a batten under a board, against its back: seen from below only in side and front views
    bodies = [box("T1", (0, 0, 100), (600, 300, 120)), box("T2", (100, 250, 95), (200, 290, 100))]
    drawing = arrangement(bodies, Style.metric(), (), A4)
    where = {m.text: v.name for v in drawing.views for m in v.marks}
    assert where == {"T1": "isometric", "T2": "front"}


def test_the_same_length_is_not_shown_twice() -> None:
    request = DimensionRequest((0, 0, 0), (400, 0, 0), "x")
    drawing = arrangement([box("A", (0, 0, 0), (400, 200, 300))], Style.metric(), [request, request], A4)
    assert texts(drawing, "front").count("400.0") == 1


def test_a_wide_piece_turns_the_sheet() -> None:
    drawing = arrangement([box("A", (0, 0, 0), (3400, 500, 300))], Style.metric(), (), A4)
    assert drawing.paper.width > drawing.paper.height


def test_scale_is_a_usual_one_and_the_next_larger_does_not_fit() -> None:
    drawing = arrangement([box("A", (0, 0, 0), (400, 200, 300))], Style.metric(), (), A4)
    assert drawing.scale is not None
    assert drawing.scale.label == "1:5"


def test_a_length_in_a_view_that_does_not_show_it_is_refused() -> None:
    with pytest.raises(DrawingError, match="front view does not show lengths along y"):
        arrangement(
            [box("A", (0, 0, 0), (4, 2, 3))], Style.metric(), [DimensionRequest((0, 0, 0), (0, 2, 0), "y", "front")]
        )


def test_a_piece_too_large_for_any_scale_is_refused() -> None:
    with pytest.raises(DrawingError, match="larger paper"):
        arrangement([box("A", (0, 0, 0), (1e6, 1e6, 1e6))], Style.metric())
