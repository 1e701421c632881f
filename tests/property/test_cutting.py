"""Invariants of cutting plans: nothing over-cut or missing, the cost is the sum of the bars, the bound is below it."""

from __future__ import annotations

from collections import Counter
from decimal import Decimal

from hypothesis import given, settings
from hypothesis import strategies as st

from fitwright.making.cutting import Bar, Cut, CuttingPlan, SawnPiece, cut_list, plan_cuts

EPSILON = 1e-6  # mm
quick = settings(max_examples=50, deadline=None)

lengths = st.floats(20.0, 2400.0, allow_nan=False)
sixteenths = st.integers(16, 1500).map(lambda n: n * 25.4 / 16)
cuts = st.lists(st.tuples(lengths | sixteenths, st.integers(1, 5)), min_size=1, max_size=7).map(
    lambda pairs: [Cut(f"A{i}", length, count) for i, (length, count) in enumerate(pairs)]
)
money = st.decimals(0, 60, places=2)
offcuts = st.lists(st.tuples(st.floats(100.0, 3000.0), money, st.integers(1, 2)), max_size=4).map(
    lambda rows: [Bar("offcut", length, price, count, True) for length, price, count in rows]
)
new = st.lists(st.tuples(st.sampled_from([2500.0, 3048.0, 6000.0, 6096.0]), money), min_size=1, max_size=3).map(
    lambda rows: [Bar("new", length, price) for length, price in rows]
)
kerfs = st.sampled_from([0.0, 1.5, 3.175, 3.2])
trims = st.sampled_from([0.0, 6.35, 12.0])


def planned(cuts: list[Cut], bars: list[Bar], kerf: float, trim: float) -> CuttingPlan:
    return plan_cuts(cuts, bars, kerf, trim, seconds=2.0)


@quick
@given(cuts, new, offcuts, kerfs, trims)
def test_a_plan_is_one_that_can_be_cut(
    cuts: list[Cut], new: list[Bar], offcuts: list[Bar], kerf: float, trim: float
) -> None:
    bars = new + offcuts
    plan = planned(cuts, bars, kerf, trim)
    made = Counter((cut.mark, cut.length_mm) for bar in plan.bars for cut in bar.cuts)
    assert made == Counter({(cut.mark, cut.length_mm): cut.quantity for cut in cuts})
    for bar in plan.bars:
        assert sum(cut.length_mm for cut in bar.cuts) + kerf * (len(bar.cuts) - 1) <= bar.bar.length - trim + EPSILON
        assert abs(bar.used + bar.kerf_lost + bar.end_trim + bar.remnant - bar.bar.length) < EPSILON
        assert bar.kerf_lost <= kerf * len(bar.cuts) + EPSILON
    for stock, used in plan.from_hand:
        assert used <= sum(bar.on_hand or 0 for bar in bars if bar == stock)


@quick
@given(cuts, new, offcuts, kerfs, trims)
def test_the_cost_is_the_sum_of_its_bars_and_no_less_than_the_bound(
    cuts: list[Cut], new: list[Bar], offcuts: list[Bar], kerf: float, trim: float
) -> None:
    plan = planned(cuts, new + offcuts, kerf, trim)
    assert plan.cost == sum(bar.bar.price for bar in plan.bars)
    assert plan.bound <= plan.cost
    assert plan.proven == (plan.bound == plan.cost)
    assert 0.0 <= plan.waste_fraction < 1.0


@quick
@given(cuts, new, offcuts, kerfs)
def test_more_to_cut_from_never_costs_more(cuts: list[Cut], new: list[Bar], offcuts: list[Bar], kerf: float) -> None:
    without, together = planned(cuts, new, kerf, 0.0), planned(cuts, new + offcuts, kerf, 0.0)
    assert together.bound <= without.cost
    if without.proven and together.proven:
        assert together.cost <= without.cost


@quick
@given(cuts, new, kerfs, st.integers(2, 9))
def test_prices_times_a_number_give_the_cost_times_it(cuts: list[Cut], new: list[Bar], kerf: float, times: int) -> None:
    plan = planned(cuts, new, kerf, 0.0)
    dearer = planned(cuts, [Bar(bar.label, bar.length, bar.price * times) for bar in new], kerf, 0.0)
    if plan.proven and dearer.proven:
        assert dearer.cost == plan.cost * times


@given(st.lists(st.tuples(st.sampled_from(["tube", "flat"]), lengths, st.integers(1, 4)), max_size=12))
def test_a_cut_list_has_every_piece_once(rows: list[tuple[str, float, int]]) -> None:
    pieces = [SawnPiece(f"A{i}", stock, length, quantity=count) for i, (stock, length, count) in enumerate(rows)]
    groups = cut_list(pieces)
    assert sum(group.quantity for group in groups) == sum(piece.quantity for piece in pieces)
    assert sorted(mark for group in groups for mark in group.marks) == sorted(piece.mark for piece in pieces)
    for stock in ("tube", "flat"):
        settings_made = [group.setting_mm for group in groups if group.stock == stock]
        assert settings_made == sorted(set(settings_made), reverse=True)


def test_decimal_prices_stay_decimal() -> None:
    assert planned([Cut("A", 100.0, 3)], [Bar("b", 250.0, Decimal("0.10"))], 0.0, 0.0).cost == Decimal("0.20")
