from __future__ import annotations

from dataclasses import replace
from datetime import date

import numpy as np
import pytest

from fitwright.assess import Assessment
from fitwright.making.welding import MapPoint, WeldPlan
from fitwright.sheets.drawing import A4
from fitwright.sheets.drawing.model import View
from fitwright.sheets.packet.cautioning import cautions_of
from fitwright.sheets.packet.contents import head_of
from fitwright.sheets.packet.model import Page
from fitwright.sheets.packet.pages.arranging import arrangement_drawing
from fitwright.sheets.packet.pages.welding import (
    in_words,
    maps_of,
    run_blocks,
    tack_rounds,
    welding_pages,
    welds_table,
    without_subject,
)
from fitwright.sheets.packet.typesetting import typeset
from tests.demos import assessed
from tests.unit.sheets.packet.jobs import plain, stand, texts

DAY = date(2027, 1, 5)


def _plan(assessment: Assessment) -> WeldPlan:
    assert assessment.welding is not None
    return assessment.welding


def _pages(assessment: Assessment) -> list[Page]:
    whole = arrangement_drawing(assessment, A4, DAY)
    return list(welding_pages(assessment, whole, cautions_of(assessment)))


def _isometric(assessment: Assessment) -> View:
    return next(view for view in arrangement_drawing(assessment, A4, DAY).views if view.name == "isometric")


@pytest.mark.parametrize(
    ("numbers", "said"),
    [([1, 2, 3, 5, 8, 9], "1 to 3, 5, 8, 9"), ([4], "4"), ([2, 1], "1, 2"), ([7, 6, 5, 4], "4 to 7")],
)
def test_numbers_that_follow_one_another_are_a_range(numbers: list[int], said: str) -> None:
    assert in_words(numbers) == said


def test_every_weld_is_in_one_line_of_the_table() -> None:
    bench = assessed("workbench")
    plan = _plan(bench)
    rows = welds_table(plan, bench.piece, bench.job.style)["rows"]
    told = []
    for said in (row[0].split(", ") for row in rows):
        for some in said:
            first, *last = (int(number) for number in some.split(" to "))
            told += list(range(first, (last or [first])[0] + 1))
    assert sorted(told) == [weld.number for weld in plan.welds]
    assert len(rows) < len(plan.welds)


def test_the_first_round_puts_a_tack_on_every_joint() -> None:
    plan = _plan(stand())
    first, *others = (said["said"] for said in tack_rounds(plan, stand().job.style))
    assert sorted(int(one.split("\u00a0")[0]) for one in first) == [weld.number for weld in plan.welds]
    assert len(first) + sum(len(said) for said in others) == len(plan.tacks)


def test_runs_are_read_down_the_columns() -> None:
    plan = _plan(assessed("drying-rack"))
    told = run_blocks(plan.steps)
    (block,) = told["blocks"]
    columns = [block[k :: told["across"]] for k in range(told["across"])]
    numbers = [int(cell[0]) for column in columns for cell in column if cell is not None]
    assert numbers == list(range(1, len(plan.steps) + 1))


def test_runs_of_a_large_piece_go_on_in_another_block() -> None:
    plan = _plan(stand())
    many = [replace(plan.steps[0], number=k) for k in range(1, 301)]
    told = run_blocks(many)
    assert len(told["blocks"]) > 1
    assert sum(cell is not None for block in told["blocks"] for cell in block) == 300


def test_maps_have_room_for_all_their_numbers() -> None:
    places = np.random.default_rng(1).uniform([0, 0, 100], [600, 350, 900], (97, 3))
    points = tuple(MapPoint(k, at, (k,), "") for k, at in enumerate(places, 1))
    maps = maps_of(replace(_plan(stand()), map_points=points), _isometric(stand()))
    assert len(maps) == 3
    assert sum(len(drawing.views[0].marks) for drawing in maps.values()) == 97


def test_movement_is_told_for_both_orders_with_its_range() -> None:
    rail = assessed("coat-rail")
    group = _plan(rail).pull.groups[0]
    page, _ = _pages(rail)
    rows = page.content["movement"]["rows"]
    for row, movement in zip(rows, group.proposed.largest(4), strict=True):
        assert f"{row[0]} {row[2]}" == movement.words(rail.job.style)
        listed = next(one for one in group.listed.movements if one.measure is movement.measure)
        assert row[1] == without_subject(listed, rail.job.style)


def test_the_pages_tell_cautions_limits_and_what_is_used() -> None:
    pages = _pages(stand())
    plan = _plan(stand())
    said = " ".join(texts(typeset(head_of(stand(), A4, DAY), pages, DAY)))
    for heading in ("Fire watch", "Welding fume", "Solvents and the arc"):
        assert heading in said
    assert all(limit in said for limit in plan.limits)
    assert stand().job.style.weight(plan.used.filler) in said
    for point in plan.map_points:
        assert f"{point.weld}: {', '.join(str(order) for order in point.orders)}" in said


def test_a_piece_without_welds_has_no_page() -> None:
    assert _pages(plain()) == []
