from __future__ import annotations

from collections import defaultdict

import pytest

from fitwright.findings import Verdict
from fitwright.job import parse_job
from fitwright.job.model import Job
from fitwright.making.welding import WeldPlan, weld_plan
from fitwright.mechanics.framing import Framed, framed
from fitwright.mechanics.shrinkage import Reading, narrowed
from fitwright.mechanics.shrinkage.pulled import FACTOR
from fitwright.piece import Piece, build
from fitwright.shop import Shop


def test_every_weld_is_made_whole(plan: WeldPlan) -> None:
    length: defaultdict[int, float] = defaultdict(float)
    for step in plan.steps:
        length[step.weld] += step.length
    for weld in plan.welds:
        assert length[weld.number] == pytest.approx(weld.length)
    assert [step.number for step in plan.steps] == list(range(1, len(plan.steps) + 1))


def test_a_second_side_comes_after_a_first(plan: WeldPlan) -> None:
    seen: set[int] = set()
    for step in plan.steps:
        assert step.second == (step.weld in seen)
        seen.add(step.weld)


def test_both_orders_have_their_figures(plan: WeldPlan) -> None:
    (group,) = plan.groups
    assert 0 < group.proposed <= group.listed
    assert group.tried > 100
    assert group.largest_clamp_force > 0
    assert "orders tried" in plan.order_words[0]
    assert plan.words[0].endswith(" mm")


def test_the_map_points_to_every_weld(plan: WeldPlan) -> None:
    numbers = [number for point in plan.map_points for number in point.orders]
    assert sorted(numbers) == [step.number for step in plan.steps]
    assert all(point.size.startswith(("fillet", "butt", "flush")) for point in plan.map_points)


def test_totals_are_sums(plan: WeldPlan) -> None:
    assert plan.used.filler == pytest.approx(sum(weld.used.filler for weld in plan.welds))
    assert plan.used.arc_time == pytest.approx(sum(weld.used.arc_time for weld in plan.welds))


def test_findings_name_limit_range_and_basis(plan: WeldPlan) -> None:
    assert plan.findings
    for finding in plan.findings:
        assert finding.area == "welding"
        assert "ISO 13920" in finding.basis
        assert "nine in ten" in finding.formula
        assert bool(finding.advice) == (finding.verdict is not Verdict.HOLDS)


def test_readings_of_the_shop_narrow_the_plan(
    piece: Piece, job: Job, frame: Framed, shop: Shop, plan: WeldPlan
) -> None:
    factor = narrowed(FACTOR, [Reading(1.0, 0.4, 0.1)] * 8)
    mine = weld_plan(piece, job, frame, shop, lambda text, share: False, factor=factor)
    wide, narrow = plan.pull.groups[0].listed.movements[0].change, mine.pull.groups[0].listed.movements[0].change
    assert abs(narrow.mean) < abs(wide.mean)
    assert narrow.sd < wide.sd
    assert mine.groups[0].stopped


def test_a_piece_without_welds_has_an_empty_plan(shop: Shop) -> None:
    text = """job: {name: trial, unit: mm}
stock: {t: square tube 30 x 30 x 2}
parts:
  host: {stock: t, path: [[-200, 0, 300], [200, 0, 300]], ends: free}
  leg: {stock: t, path: [[0, 0, 0], [0, 0, 300]], fastened: bolted, repeat: {x: [-100, 100]}}
"""
    job = parse_job(text)
    piece = build(job)
    plan = weld_plan(piece, job, framed(piece, job), shop)
    assert not any((plan.welds, plan.steps, plan.findings, plan.cautions, plan.limits))
    assert plan.used.filler == 0


def test_subassemblies_are_welded_first(piece: Piece, job: Job, frame: Framed, shop: Shop) -> None:
    ladder = ["leg 1", "leg 2", "leg 3", "leg 4", "stretcher 1", "stretcher 2"]
    plan = weld_plan(piece, job, frame, shop, lambda text, share: False, subassemblies=[ladder])
    assert len(plan.groups) > 1
    assert set(plan.groups[0].members) <= set(ladder)
    inner = {weld.number for weld in plan.welds if {weld.first, weld.second} <= set(ladder)}
    order = [step.weld for step in plan.steps]
    assert set(order[: sum(number in inner for number in order)]) == inner
