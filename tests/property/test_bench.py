"""Invariants of bench plans: stops touch and stand clear, blocks are as few as proven, where drawn is nothing."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import Phase, given, settings
from hypothesis import strategies as st

from fitwright.making.bench import bench_plans
from fitwright.making.bench.devices import hole_name, hole_places, letters
from fitwright.shop import Bench
from tests.unit.making.bench.samples import TABLE, built, frame, hoop, shop_with
from tests.unit.making.bench.soundness import faults

# a plan takes tenths of a second: no shrinking, which tries hundreds
quick = settings(max_examples=8, deadline=None, phases=[Phase.explicit, Phase.reuse, Phase.generate])
sizes = st.integers(500, 1300).map(float)
corners = st.sampled_from(["front left", "front right", "back left", "back right"])
benches = st.builds(
    lambda length, width, corner, first: replace(
        TABLE, length=float(length), width=float(width), corner=corner, first_hole=(float(first), float(first))
    ),
    st.integers(700, 2000),
    st.integers(600, 1200),
    corners,
    st.sampled_from([20, 25, 40]),
)


@quick
@given(sizes, sizes, benches, st.booleans())
def test_a_plan_is_one_that_can_be_set_up(width: float, depth: float, bench: Bench, bent: bool) -> None:
    job, piece = built(hoop(width, depth) if bent else frame(width, depth))
    (plan,) = bench_plans(piece, job, shop_with(bench))
    assert faults(plan, bench) == []
    assert plan.made == sum(not stop.standard for stop in plan.stops)
    assert plan.made >= plan.bound
    assert not plan.proven or plan.made == plan.bound
    assert sum(block.quantity for block in plan.blocks) == plan.made
    by_letter = {block.letter: block.length for block in plan.blocks}
    assert all(abs(by_letter[stop.block] - stop.gap) < 0.3 for stop in plan.stops if stop.gap)
    named = dict(zip(plan.hole_names, plan.holes, strict=True))
    assert all(named[stop.hole] == pytest.approx(stop.at, abs=0.01) for stop in plan.stops)


@quick
@given(st.integers(-3000, 3000).map(lambda n: n / 10), sizes)
def test_where_the_piece_was_drawn_is_nothing_to_the_bench(shift: float, width: float) -> None:
    text = frame(width, 500)
    moved = text.replace("[0, ", f"[{shift}, ").replace(f"[{width}, ", f"[{round(width + shift, 3)}, ")
    plans = []
    for one in (text, moved):
        job, piece = built(one)
        plans.append(bench_plans(piece, job, shop_with())[0])
    assert plans[0].made == plans[1].made
    assert [c.length for c in plans[0].checks] == pytest.approx([c.length for c in plans[1].checks])


@given(benches, st.integers(0, 10), st.integers(0, 8))
def test_holes_are_counted_from_their_corner(bench: Bench, column: int, row: int) -> None:
    """The hole named by a column and a row lies so many pitches from the first hole at the named corner."""
    places, pitch = hole_places(bench), bench.hole_pitch
    names = {hole_name(bench, c, r): places[c, r] for c in range(bench.holes[0]) for r in range(bench.holes[1])}
    x, y = names[f"{letters(column)}-{row + 1}"]
    far_x = x if bench.corner.endswith("left") else bench.length - x
    far_y = y if bench.corner.startswith("front") else bench.width - y
    assert (far_x, far_y) == pytest.approx((bench.first_hole[0] + column * pitch, bench.first_hole[1] + row * pitch))
