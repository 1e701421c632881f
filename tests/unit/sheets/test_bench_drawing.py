"""The picture of the bench: what is named on it, and that it can be read."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise
from xml.etree import ElementTree

import pytest

from fitwright.making.bench import BenchPlan, bench_plans
from fitwright.sheets.bench_drawing import bench_drawing
from fitwright.sheets.drawing import to_svg
from fitwright.sheets.drawing.svg import inked
from fitwright.units import Style
from tests.demos import NAMES, assessed
from tests.unit.making.bench.samples import BARE, TABLE, frame, hoop, planned
from tests.unit.sheets.drawing.proof import written_over

SVG = "{http://www.w3.org/2000/svg}"
STYLE = Style.metric()


def texts(plan: BenchPlan) -> list[str]:
    root = ElementTree.fromstring(to_svg(bench_drawing(plan, STYLE)))
    return [t.text or "" for t in root.iter(f"{SVG}text")]


def test_everything_in_use_is_named() -> None:
    (plan,) = planned(frame())
    shown = texts(plan)
    assert {stop.hole for stop in plan.stops} <= set(shown)
    assert {stop.part for stop in plan.stops} <= set(shown)
    assert {clamp.hole for clamp in plan.clamps if clamp.hole in plan.hole_names} <= set(shown)
    assert {"A", "AC", "1", "20"} <= set(shown)  # 30 columns and 20 rows of 50 mm on 1500 x 1000
    assert "front left corner: holes counted from here" in shown


def test_holes_under_parts_and_texts_are_left_out() -> None:
    (plan,) = planned(frame())
    drawing = bench_drawing(plan, STYLE)
    rings = [arc for arc in drawing.views[0].arcs if arc.radius == TABLE.hole_diameter / 2]
    assert 300 < len(rings) < len(plan.holes)
    under = plan.outlines[0].lines[0]
    middle = (sum(x for x, _ in under[:4]) / 4, sum(y for _, y in under[:4]) / 4)
    assert all(abs(arc.centre[0] - middle[0]) > 1 or abs(arc.centre[1] - middle[1]) > 15 for arc in rings)


@pytest.mark.parametrize("name", NAMES)
def test_nothing_is_written_over_anything(name: str) -> None:
    job = assessed(name)
    plans = bench_plans(job.piece, job.job, job.shop)
    for plan in (plans[0], plans[-1]):
        drawing = bench_drawing(plan, job.job.style)
        assert drawing.paper.width <= 190.0 + 2
        over = [fault for fault in written_over(inked(drawing)) if " over " in fault]
        assert over == []


def test_what_hangs_over_is_told() -> None:
    (plan,) = planned(hoop(), replace(TABLE, length=700.0, width=500.0))
    assert any(d.value > 100 for d in bench_drawing(plan, STYLE).views[0].dimensions if hasattr(d, "value"))


def test_a_bench_without_holes_is_drawn_with_its_bars() -> None:
    (plan,) = planned(frame(), BARE)
    shown = texts(plan)
    assert "bar" in shown
    assert "front left corner: lengths counted from here" in shown
    assert {block.letter for block in plan.blocks} <= set(shown)


def test_names_of_holes_do_not_run_into_one_another_on_a_small_bench_under_a_long_part() -> None:
    """A frame of 6 m makes the picture so small that only every fifth line of holes has room for its name."""
    (plan,) = planned(frame(6000, 400))
    drawing = inked(bench_drawing(plan, STYLE)).texts
    numbers = sorted((t.box for t in drawing if t.text.isdigit()), key=lambda box: float(box[:, 1].min()))
    letters = [t.box for t in drawing if t.text.isalpha() and t.text.isupper()]
    names = sorted(letters, key=lambda box: float(box[:, 0].min()))
    assert 2 < len(numbers) < 20
    assert 2 < len(names) < 30
    assert all(a[:, 1].max() < b[:, 1].min() for a, b in pairwise(numbers))
    assert all(a[:, 0].max() < b[:, 0].min() for a, b in pairwise(names))
