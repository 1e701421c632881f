"""Pictures of cutting plans."""

from __future__ import annotations

import pytest

from fitwright.sheets.drawing import BarRow, DrawingError, bars_drawing
from fitwright.sheets.drawing.svg import inked
from fitwright.units import Style
from tests.unit.sheets.drawing.proof import written_over

LONG = BarRow(
    "Bar 1: round tube 1 1/8 x 14 ga", 6096, (("A1", 3700.0), ("B1", 1016.0), ("D1", 38.0), ("D1", 38.0)), 1290
)
MANY = BarRow("Bar 2", 6096, tuple((f"D{i}", 30.0 + i) for i in range(5)), 5900)
SHORT = BarRow("Bar 3, offcut", 2000, (("E1", 1990.0),), 5.0)


def texts(rows: list[BarRow]) -> list[str]:
    return [n.text for n in bars_drawing(rows, Style.metric()).views[0].notes]


def test_marks_and_lengths_are_shown_and_like_short_cuts_together() -> None:
    shown = texts([LONG])
    assert {"A1", "3700.0", "B1", "1016.0", "2 × D1  38.0", "left 1290.0"} <= set(shown)


def test_bars_are_to_one_scale() -> None:
    view = bars_drawing([LONG, SHORT], Style.metric()).views[0]
    outlines = [s.points for s in view.strokes if len(s.points) == 5]
    assert [p[:, 0].max() - p[:, 0].min() for p in outlines] == pytest.approx([6096, 2000])


def test_the_remnant_is_hatched_and_a_sliver_is_not() -> None:
    assert len(bars_drawing([LONG], Style.metric()).views[0].hatches) == 2
    assert len(bars_drawing([SHORT], Style.metric()).views[0].hatches) == 0


def test_nothing_is_written_over_anything() -> None:
    drawing = bars_drawing([LONG, MANY, SHORT, LONG], Style.inch(), width=190)
    ink = inked(drawing)
    assert [fault for fault in written_over(ink) if " over " in fault or "arrow" in fault] == []
    for text in ink.texts:
        assert text.box[:, 0].min() >= -0.01
        assert text.box[:, 0].max() <= drawing.paper.width + 0.01
        assert text.box[:, 1].min() >= -0.01
        assert text.box[:, 1].max() <= drawing.paper.height + 0.01


def test_cuts_longer_than_the_bar_are_refused() -> None:
    with pytest.raises(DrawingError, match=r"Bar 9: cuts and remnant are 50.0 mm longer than its 1000.0 mm"):
        bars_drawing([BarRow("Bar 9", 1000, (("A", 1050.0),), 0.0)], Style.metric())


def test_no_bars_are_refused() -> None:
    with pytest.raises(DrawingError, match="no bars"):
        bars_drawing([], Style.metric())
