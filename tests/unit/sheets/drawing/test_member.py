"""Pictures of bent members."""

from __future__ import annotations

from math import pi

import pytest

from fitwright.sheets.drawing import DrawingError, member_sketch, member_view
from fitwright.sheets.drawing.model import AngleDimension, LinearDimension, Point, RadiusDimension
from fitwright.sheets.drawing.svg import inked
from fitwright.units import Style
from tests.unit.sheets.drawing.proof import written_over

HOOP: list[Point] = [(0, 0), (0, 1730), (771, 1730), (771, 0)]
CRANK: list[Point] = [(0, 0), (300, 0), (450, 260), (900, 260), (900, 100)]
S_SHAPE: list[Point] = [(0, 0), (400, 0), (400, 300), (800, 300)]


def test_legs_run_between_tangent_points() -> None:
    (view,) = member_view(HOOP, [102, 102], 28.6, Style.metric()).views
    legs = sorted(d.value for d in view.dimensions if isinstance(d, LinearDimension))
    # a right angle takes its radius off each leg
    assert legs == pytest.approx([771 - 204, 1730 - 102, 1730 - 102])


def test_angle_and_radius_of_each_bend() -> None:
    (view,) = member_view(CRANK, [76, 76, 60], 25, Style.metric()).views
    turns = sorted(d.value for d in view.dimensions if isinstance(d, AngleDimension))
    assert turns == pytest.approx([1.0475, 1.0475, pi / 2], abs=1e-4)
    assert {d.text for d in view.dimensions if isinstance(d, RadiusDimension)} == {"2 × R 76.0", "R 60.0"}
    assert [m.text for m in view.marks] == ["bend 1", "bend 2", "bend 3"]


def test_outlines_stand_half_the_width_off() -> None:
    (view,) = member_view(HOOP, [102, 102], 28.6, Style.metric()).views
    assert sorted({round(arc.radius, 3) for arc in view.arcs}) == [87.7, 102.0, 116.3]


@pytest.mark.parametrize("style", [Style.inch(), Style.metric()], ids=["inch", "metric"])
@pytest.mark.parametrize(("points", "radii"), [(HOOP, [102, 102]), (CRANK, [76, 76, 60]), (S_SHAPE, [90, 90])])
def test_nothing_is_written_over_anything(points: list[Point], radii: list[float], style: Style) -> None:
    drawing = member_view(points, radii, 25.4, style)
    assert written_over(inked(drawing)) == []
    assert drawing.paper.width <= 180 + 2
    assert drawing.paper.height <= 110 + 2


def test_more_can_be_drawn_into_it() -> None:
    drawing = (
        member_sketch(HOOP, [102, 102], 28.6, Style.metric()).width((0, 0), (771, 0)).text("weld", (385, 100)).drawing()
    )
    (view,) = drawing.views
    assert "771.0" in [d.text for d in view.dimensions]
    assert [n.text for n in view.notes] == ["weld"]


def test_bends_that_overlap_are_refused() -> None:
    with pytest.raises(DrawingError, match=r"asked for 400\.0 mm of bends"):
        member_view(S_SHAPE, [200, 200], 25, Style.metric())


def test_a_radius_for_each_corner() -> None:
    with pytest.raises(DrawingError, match="4 points and 1 radii"):
        member_view(S_SHAPE, [90], 25, Style.metric())


def test_folding_back_is_refused() -> None:
    with pytest.raises(DrawingError, match="folds back"):
        member_view([(0, 0), (100, 0), (0, 0)], [10], 5, Style.metric())
