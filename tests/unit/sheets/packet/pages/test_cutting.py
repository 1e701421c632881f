from __future__ import annotations

from decimal import Decimal

import pytest

from fitwright.assess import Assessment
from fitwright.making.bench import blocks_to_cut
from fitwright.making.cutting import Bar, CuttingPlan, PlannedBar, PlannedCut
from fitwright.sheets.packet.model import Page
from fitwright.sheets.packet.pages.cutting import NO_PLAN, cutting_pages
from tests.unit.sheets.packet.jobs import of_text, stand


def _pages(assessment: Assessment) -> list[Page]:
    return list(cutting_pages(assessment))


def test_every_setting_is_told_once_longest_first() -> None:
    assessment = stand()
    for page in _pages(assessment)[: len(assessment.stocks)]:
        label = page.title.removeprefix("Cutting: ")
        groups = [group for group in assessment.cut_groups if group.stock == label]
        rows = page.content["settings"]["rows"]
        assert [row[1] for row in rows] == [assessment.job.style.length(group.setting_mm) for group in groups]
        assert [row[5] for row in rows] == [group.quantity for group in groups]
        assert [group.setting_mm for group in groups] == sorted((g.setting_mm for g in groups), reverse=True)


def test_every_piece_is_on_a_bar() -> None:
    assessment = stand()
    for page in _pages(assessment)[: len(assessment.stocks)]:
        plan = assessment.cutting_plans[page.title.removeprefix("Cutting: ")]
        assert sum(bar["bars"] for bar in page.content["bars"]) == len(plan.bars)
        assert [bar["picture"] for bar in page.content["bars"]] == list(page.pictures)


def test_the_cost_is_the_plans_and_said_to_be_proven() -> None:
    assessment = stand()
    page = _pages(assessment)[0]
    plan = assessment.cutting_plans["round tube 32 x 2 mm"]
    assert page.content["plan"][0] == f"Bars for {plan.cost:.2f} EUR: proven to be the least cost."
    assert page.content["plan"][1].startswith(f"Left over, hatched: {100 * plan.waste_fraction:.1f} %")
    assert "300.0 mm on goes back on the rack" in page.content["plan"][1]


def test_a_plan_that_is_not_proven_says_how_far_it_may_be_off() -> None:
    assessment = stand()
    bar = PlannedBar(Bar("x", 6000.0, Decimal(50)), (PlannedCut("A1", 900.0),), 900.0, 2.0, 0.0, 5098.0)
    plan = CuttingPlan(Decimal(100), Decimal(80), False, (bar, bar))
    assessment.__dict__["cutting_plans"] = {"round tube 32 x 2 mm": plan}
    page = _pages(assessment)[0]
    assert page.content["plan"][0] == "Bars for 100.00 EUR; no plan costs less than 80.00: at most 25.0 % too much."
    assert page.content["bars"] == [{"picture": "bar-1", "label": "2 bars of 6000.0 mm", "bars": 2, "cuts": None}]


def test_a_stock_without_a_plan_says_why() -> None:
    assessment = stand()
    assessment.__dict__["cutting_plans"] = {}
    page = _pages(assessment)[0]
    assert page.content["plan"] == [NO_PLAN]
    assert page.pictures == {}


def test_lengths_beyond_the_stop_are_measured() -> None:
    page = _pages(stand())[0]  # the shipped metric saw's stop reaches 1500 mm, the hoop's blank is longer
    rows = {row[3]: row[2] for row in page.content["settings"]["rows"]}
    assert rows["A1"] == ["square", "beyond the stop: measure"]
    assert "square" in rows["B1"] or "both" in rows["B1"]


def test_the_kerf_is_told_finer_than_lengths() -> None:
    text = """
job: {name: Rail, unit: inch}
stock: {tube: round tube 1 1/8 x 14 ga}
parts: {rail: {stock: tube, path: [[0, 0, 0], [40, 0, 0]], ends: free}}
"""
    assert _pages(of_text(text))[0].content["saw"] == 'kerf 3/32"'


@pytest.mark.parametrize("count", [24])
def test_many_short_cuts_are_told_in_words(count: int) -> None:
    rails = "\n".join(
        f"  rail {k}: {{stock: tube, path: [[0, {100 * k}, 0], [{100 + 3 * k}, {100 * k}, 0]], ends: free}}"
        for k in range(count)
    )
    text = f"job: {{name: Rails, unit: mm}}\nstock: {{tube: round tube 32 x 2}}\nparts:\n{rails}\n"
    (page,) = _pages(of_text(text))
    told = [bar["cuts"] for bar in page.content["bars"] if bar["cuts"]]
    assert told
    assert told[0].startswith("In this order: ")
    assert f"{100 + 3 * (count - 1):.1f}" in told[0]


def test_blocks_for_the_bench_have_a_page_with_stop_settings_of_their_own() -> None:
    assessment = stand()
    (page,) = _pages(assessment)[len(assessment.stocks) :]
    blocks = blocks_to_cut(assessment.bench)
    assert page.title == "Blocks for the bench"
    assert blocks[0].stock in page.content["how"]
    rows = page.content["settings"]["rows"]
    assert sorted((row[1], row[3], row[5]) for row in rows) == sorted(
        (f"{block.length:.1f} mm", block.letter, block.quantity) for block in blocks
    )
    assert rows[0][0] == str(len(assessment.cut_groups) + 1)
    drawn = sum(bar["bars"] for bar in page.content["bars"])
    assert drawn == len(assessment.blocks.plans[blocks[0].stock].bars)
