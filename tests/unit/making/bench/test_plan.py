from __future__ import annotations

import re
from dataclasses import replace

import pytest

from fitwright.findings import Verdict
from fitwright.making.bench import BenchError, BenchPlan, BenchStopped, GroupWish, bench_plans, blocks_to_cut
from fitwright.shop import BenchPin, BenchStop
from tests.demos import NAMES, assessed
from tests.unit.making.bench.samples import BARE, PINS, STAND, TABLE, built, frame, hoop, planned, shop_with
from tests.unit.making.bench.soundness import faults


def noted(plan: BenchPlan, check: str) -> list[str]:
    return [f.advice for f in plan.findings if f.check == check and f.verdict is not Verdict.HOLDS]


@pytest.mark.parametrize("name", NAMES)
def test_every_demo_is_planned_without_a_fault(name: str) -> None:
    job = assessed(name)
    plans = bench_plans(job.piece, job.job, job.shop)
    assert plans
    for plan in plans:
        assert faults(plan, job.shop.bench) == []
        assert plan.proven
        assert plan.made == plan.bound
        assert plan.conditioning > 0.5
        assert plan.checks


def test_the_first_hoop_of_the_rack_stands_on_stops_alone() -> None:
    """Set up without a tape: everything bears on a pin or stop in a named hole; nothing is made or set by hand."""
    job = assessed("drying-rack")
    plan = bench_plans(job.piece, job.job, job.shop)[0]
    assert "hoop" in plan.name
    assert plan.made == 0
    assert all(stop.standard and not stop.set_by_hand for stop in plan.stops)
    assert {stop.hole for stop in plan.stops} <= set(plan.hole_names)
    assert not noted(plan, "bearings without a hole")
    told = " ".join(plan.steps)
    assert all(stop.hole in told for stop in plan.stops)
    assert "its ends to the" in told


def test_equal_frames_are_made_on_one_set_up() -> None:
    job = assessed("workbench")
    plans = {plan.name: plan for plan in bench_plans(job.piece, job.job, job.shop)}
    first, second = (plans[f"leg with side stretcher, {k}"] for k in (1, 2))
    assert second.subassembly.same_as == first.name
    assert second.stops == first.stops
    assert any("match it to the first" in step for step in second.steps)


def test_a_single_hoop_is_checked_on_the_bench() -> None:
    (plan,) = planned(hoop())
    assert plan.subassembly.flips == ()
    assert [stop.role for stop in plan.stops].count("first") == 2
    assert {"second", "shape"} <= {stop.role for stop in plan.stops}
    assert any("mark the trim" in step for step in plan.steps)


def test_a_bench_smaller_than_the_piece_gets_an_honest_plan() -> None:
    small = replace(TABLE, length=700.0, width=500.0)
    (plan,) = planned(hoop(), small)
    assert faults(plan, small) == []
    assert plan.overhang > 150.0
    assert noted(plan, "overhang")
    assert any(f.check == "centre of mass on the bench" and f.verdict is not Verdict.FAILS for f in plan.findings)


def test_a_bench_without_holes_is_planned_from_its_edges() -> None:
    (plan,) = planned(frame(), BARE)
    assert faults(plan, BARE) == []
    assert noted(plan, "stops in holes") == [
        "the bench has no holes: bars clamped along its edges and blocks stand in for stops; set the bars by square"
    ]
    assert not plan.proven
    assert {stop.kind for stop in plan.stops} >= {"bar along the left edge", "bar along the front edge"}
    assert all(stop.hole.endswith(" edge") or stop.hole.startswith("off ") for stop in plan.stops)
    assert "50.0 mm from the left edge" in " ".join(plan.steps)
    assert plan.conditioning > 0.3
    # the far sides are set by blocks cut to the clear width and depth
    assert sorted({round(block.length) for block in plan.blocks}) == [420, 820]


def test_a_shop_without_stops_says_so() -> None:
    without = replace(TABLE, pins=(), stops=())
    (plan,) = planned(frame(), without)
    assert "lists no pins" in noted(plan, "stops in holes")[0]
    assert plan.stops


def test_too_few_stops_are_told() -> None:
    few = replace(TABLE, pins=(BenchPin("pin", 16, 50, 2),), stops=())
    (plan,) = planned(frame(), few)
    assert len(plan.stops) == 2
    assert noted(plan, "bearings without a hole")


def test_a_shop_without_clamps_is_told() -> None:
    (plan,) = planned(frame(), replace(TABLE, clamps=()))
    assert plan.clamps == ()
    assert noted(plan, "clamps")


def test_the_maker_s_own_set_ups_are_taken() -> None:
    job, piece = built(STAND)
    wishes = (GroupWish("floor", ("base",)), GroupWish("all", ("floor", "post", "top"), up="bottom"))
    plans = bench_plans(piece, job, shop_with(), groups=wishes)
    assert [plan.name for plan in plans] == ["floor", "all"]
    assert plans[1].subassembly.of == ("floor",)
    assert plans[1].subassembly.up == (0.0, 0.0, -1.0)
    assert plans[1].subassembly.up_words == "bottom up"


@pytest.mark.parametrize(
    ("wishes", "told"),
    [
        ((GroupWish("a", ("bse",)),), "did you mean 'base'"),
        ((GroupWish("a", ("base",), up="north"),), "use one of top"),
        ((GroupWish("a", ("base",)), GroupWish("a", ("top",))), "same name"),
        ((GroupWish("a", ()),), "names no part"),
    ],
)
def test_a_wish_that_cannot_be_is_refused(wishes: tuple[GroupWish, ...], told: str) -> None:
    job, piece = built(STAND)
    with pytest.raises(BenchError, match=told):
        bench_plans(piece, job, shop_with(), groups=wishes)


def test_progress_is_told_and_planning_can_be_stopped() -> None:
    job, piece = built(STAND)
    seen: list[tuple[int, int, str]] = []
    plans = bench_plans(piece, job, shop_with(), progress=lambda *step: seen.append(step))
    assert [step[0] for step in seen] == list(range(len(plans) + 1))
    assert seen[0][2] == plans[0].name
    with pytest.raises(BenchStopped, match="0 of"):
        bench_plans(piece, job, shop_with(), stop=lambda: True)


def test_blocks_are_gathered_with_their_stock_and_cut_once() -> None:
    plans = planned(STAND, replace(TABLE, pins=PINS[:1], stops=()))
    cut = blocks_to_cut(plans)
    assert len({block.letter for block in cut}) == len(cut)
    for block in cut:
        used = [b.quantity for plan in plans for b in plan.blocks if b.letter == block.letter]
        assert block.quantity == max(used)
        assert block.stock


def test_a_part_above_the_bench_stands_on_equal_blocks() -> None:
    job = assessed("workbench")
    whole = bench_plans(job.piece, job.job, job.shop)[-1]
    (block,) = [b for b in whole.blocks if b.upright]
    assert block.quantity == 2
    # upside down: 35 in high, 1 3/4 in top, stretcher at 9 in of 2 in tube: 33 1/4 - 10 = 23 1/4 in
    assert block.length == pytest.approx(23.25 * 25.4, abs=0.01)
    assert "lumber 2x4" in block.stock


def test_when_it_is_turned_over_is_as_the_maker_says() -> None:
    job, piece = built(STAND)
    wishes = (
        GroupWish("floor", ("base",), flip="never"),
        GroupWish("all", ("floor", "post", "top"), flip="when welded"),
    )
    plans = bench_plans(piece, job, shop_with(), groups=wishes)
    assert plans[0].subassembly.flips == ("Leave it as it lies: everything is tacked and welded from this side.",)
    assert plans[0].steps[-1] == plans[0].subassembly.flips[0]
    assert "then turn it over" in plans[1].steps[-1]


def test_joints_that_no_set_up_holds_are_told() -> None:
    job, piece = built(STAND)
    (plan,) = bench_plans(piece, job, shop_with(), groups=(GroupWish("floor", ("base",)),))
    (found,) = [one for one in plan.findings if one.check == "joints that no subassembly holds"]
    assert found.value == 16  # six posts at both ends, and the four corners of the top
    assert "and 13 more" in found.advice
    whole = bench_plans(piece, job, shop_with(), groups=(GroupWish("all", ("base", "post", "top")),))
    assert "joints that no subassembly holds" not in [one.check for one in whole[0].findings]


def test_a_leg_of_a_mitred_part_and_a_whole_copy_can_be_named() -> None:
    job, piece = built(STAND)
    one, all_ = (
        bench_plans(piece, job, shop_with(), groups=(GroupWish("a", (name,)),))[0] for name in ("base leg 2", "base")
    )
    assert len(one.subassembly.members) == 1
    assert len(all_.subassembly.members) == 4


def test_both_ends_of_a_frame_are_told_by_the_same_part() -> None:
    """At a corner two parts are as near: legs at either end are set from the ends of the long one, left and right."""
    plan = assessed("workbench").bench[-1]
    assert {(spacer.on, spacer.source) for spacer in plan.spacers} == {
        ("A1", "the left end of A1"), ("A1", "the right end of A1"),
    }  # fmt: skip


def test_a_clamp_at_the_edge_is_found_without_a_rule() -> None:
    for name in NAMES:
        plans = assessed(name).bench
        at_edge = [clamp.hole for plan in plans for clamp in plan.clamps if clamp.hole not in plan.hole_names]
        assert all(
            re.fullmatch(r"the (left|right|front|back) edge at (row \d+|column [A-Z]+)", hole) for hole in at_edge
        )
    (plan,) = planned(frame(), BARE)
    assert all(" edge, " in clamp.hole for clamp in plan.clamps)


def test_what_hangs_over_is_told_for_each_edge() -> None:
    """A frame of 1650 by 1080 on a bench of 1500 by 1000: 230 in all, as much of it at each edge as the drawing has."""
    (plan,) = planned(frame(1650, 1080))
    (told,) = noted(plan, "overhang")
    points = [p for outline in plan.outlines for line in outline.lines for p in line]
    over = {
        "left": -min(x for x, _ in points),
        "right": max(x for x, _ in points) - 1500,
        "front": -min(y for _, y in points),
        "back": max(y for _, y in points) - 1000,
    }
    assert sum(by for by in over.values() if by > 0) >= 230
    for side, by in over.items():
        assert (f"{by:.1f} mm at the {side}" in told) is (by > 1)


def test_a_stop_that_slides_needs_no_block_and_is_told_how_far() -> None:
    """Holes 100 mm apart and one kind of stop, its face 20 to 110 mm from its hole: whatever is left it can take up."""
    slide = BenchStop("slide stop", 20, 50, 60, 20, 110)
    bench = replace(TABLE, hole_pitch=100, hole_diameter=28, first_hole=(50, 50), pins=(), stops=(slide,))
    (plan,) = planned(frame(873, 512), bench)
    assert faults(plan, bench) == []
    slid = [stop for stop in plan.stops if stop.set_by_hand]
    assert slid
    assert plan.made == plan.bound == 0
    assert plan.blocks == ()
    assert all(f"its face {stop.reach:.1f} mm from the hole, in" in plan.steps[0] for stop in slid)
