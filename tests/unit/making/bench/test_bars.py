from __future__ import annotations

from dataclasses import replace

from fitwright.making.bench import BenchPlan
from tests.unit.making.bench.samples import BARE, TABLE, planned
from tests.unit.making.bench.soundness import faults
from tests.unit.making.bench.test_squaring import TROLLEY

LADDER = """
job: {name: Ladder, unit: mm}
stock: {tube: square tube 30 x 30 x 2, ledge: angle 30 x 30 x 3}
parts:
  post: {stock: tube, path: [[0, 15, 15], [1200, 15, 15]], ends: free, mirror: {y: 200}}
  side: {stock: tube, path: [[1185, 30, 15], [1185, 370, 15]]}
  ledge:
    stock: ledge
    path: [[200, 15, 15], [200, 385, 15]]
    legs: [right, up]
    repeat: {x: {every: 350, count: 3}}
"""


def _laid_after_what_they_bear_on(plan: BenchPlan) -> bool:
    """Whether every block bears off a mark of which something lies already."""
    laid: set[str] = set()
    for step in (one for one in plan.steps if one.startswith("Lay ")):
        needed = {word.split(" ")[0] for word in step.split(" off ")[1:]}
        if needed - laid:
            return False
        laid |= {stop.part for stop in plan.stops if f"({stop.part})" in step}
    return True


def test_nothing_bears_off_what_does_not_lie_yet() -> None:
    (plan,) = planned(LADDER, BARE)
    assert faults(plan, BARE) == []
    off = [stop for stop in plan.stops if stop.hole.startswith("off ")]
    assert off
    assert _laid_after_what_they_bear_on(plan)


def test_no_two_parts_bear_off_one_another() -> None:
    """From the bar outward: three ledges at 350 mm off one another, and the side off the last of them."""
    (plan,) = planned(LADDER, BARE)
    pairs = {(stop.part, stop.hole.removeprefix("off ")) for stop in plan.stops if stop.hole.startswith("off ")}
    assert all((other, one) not in pairs for one, other in pairs if one != other)


def test_a_frame_high_above_the_bench_bears_on_no_bar() -> None:
    """The second side comes last, over what stands: it is not laid where the first one lies."""
    for bench in (BARE, replace(TABLE, pins=(), stops=())):
        whole = planned(TROLLEY, bench)[-1]
        lays = [step for step in whole.steps if step.startswith("Lay ")]
        assert ["brought over the frame below" in step for step in lays] == [False, True]
        assert {block.quantity for block in whole.blocks} <= {2}


def test_what_has_room_lies_on_the_bench_whole() -> None:
    """The first face that looks to the left is a ledge's, 200 mm in: the bar goes there, the posts stay whole."""
    (plan,) = planned(LADDER, BARE)
    points = [p for outline in plan.outlines for line in outline.lines for p in line]
    assert min(x for x, _ in points) >= -1e-6
    assert min(y for _, y in points) >= -1e-6
    assert any(stop.hole == "200.0 mm from the left edge" for stop in plan.stops)
    assert not [f for f in plan.findings if f.check == "overhang"]


def test_bars_and_clamps_are_on_the_bench_and_its_edge() -> None:
    """The posts are longer than the bench: their bearings keep to what lies on it."""
    small = replace(BARE, length=900.0, width=600.0)
    for bench in (BARE, small):
        (plan,) = planned(LADDER, bench)
        assert plan.stops
        for x, y in (stop.contact for stop in plan.stops):
            assert 0 <= x <= bench.length
            assert 0 <= y <= bench.width
        held = [clamp.at for clamp in plan.clamps]
        assert all(min(abs(x), abs(x - bench.length), abs(y), abs(y - bench.width)) < 1e-6 for x, y in held)
    assert planned(LADDER, BARE)[0].clamps


def test_a_clamp_presses_on_the_leg_of_an_angle_and_not_beside_its_heel() -> None:
    (plan,) = planned(LADDER)
    assert any(clamp.part == plan.outlines[-1].part for clamp in plan.clamps)
    assert [fault for fault in faults(plan, TABLE) if "presses beside" in fault] == []
