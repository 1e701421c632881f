from __future__ import annotations

import os
import subprocess
import sys
from collections import Counter
from collections.abc import Sequence
from decimal import Decimal
from fractions import Fraction
from itertools import combinations

import numpy as np
import pytest

from fitwright.making.cutting import (
    Bar,
    Cut,
    CuttingError,
    CutTooLong,
    NoPlanInTime,
    NotEnoughOnHand,
    Progress,
    clock,
    plan_cuts,
)

SIX = Bar("6 m", 6000.0, Decimal("31.50"))


def least_cost(lengths: Sequence[int], bars: Sequence[Bar], kerf: int, trim: int) -> Decimal | None:
    """Every way of sharing pieces out among bars, tried; kerf between pieces only, as the last cut may be flush."""
    if not lengths:
        return Decimal(0)
    first, rest = lengths[0], list(lengths[1:])
    best: Decimal | None = None
    for number in range(len(rest) + 1):
        for chosen in combinations(range(len(rest)), number):
            together = [first, *(rest[index] for index in chosen)]
            needed = sum(together) + kerf * (len(together) - 1)
            left = [length for index, length in enumerate(rest) if index not in chosen]
            for index, bar in enumerate(bars):
                if needed > Fraction(bar.length) - trim or bar.on_hand == 0:
                    continue
                less = bar.on_hand if bar.on_hand is None else bar.on_hand - 1
                others = [*bars[:index], Bar(bar.label, bar.length, bar.price, less), *bars[index + 1 :]]
                more = least_cost(left, others, kerf, trim)
                if more is not None and (best is None or bar.price + more < best):
                    best = bar.price + more
    return best


def price(draw: np.random.Generator, low: int, high: int) -> Decimal:
    return Decimal(int(draw.integers(low, high)))


@pytest.mark.parametrize("seed", range(25))
def test_small_cases_against_every_way_of_cutting(seed: int) -> None:
    draw = np.random.default_rng(seed)
    lengths = draw.integers(10, 60, draw.integers(3, 7)).tolist()
    kerf, trim = int(draw.integers(0, 4)), int(draw.integers(0, 5))
    bars = [
        Bar(f"new {size}", float(size), Decimal(int(draw.integers(10, 40)))) for size in draw.choice([70, 95, 120], 2)
    ]
    bars += [
        Bar(f"offcut {size}", float(size), Decimal(int(draw.integers(0, 5))), 1) for size in draw.integers(20, 80, 2)
    ]
    plan = plan_cuts([Cut(f"P{i}", float(n)) for i, n in enumerate(lengths)], bars, float(kerf), float(trim))
    assert plan.proven
    assert plan.cost == least_cost(lengths, bars, kerf, trim)


@pytest.mark.parametrize("seed", range(12))
def test_small_cases_from_what_is_on_hand_only(seed: int) -> None:
    draw = np.random.default_rng(1000 + seed)
    lengths = draw.integers(15, 60, 5).tolist()
    bars = [
        Bar(f"on hand {n}", float(size), Decimal(int(draw.integers(1, 9))), 1)
        for n, size in enumerate(draw.integers(40, 90, 4))
    ]
    cuts = [Cut(f"P{i}", float(n)) for i, n in enumerate(lengths)]
    expected = least_cost(lengths, bars, 2, 1)
    if expected is None:
        with pytest.raises(NotEnoughOnHand):
            plan_cuts(cuts, bars, 2.0, 1.0)
    else:
        plan = plan_cuts(cuts, bars, 2.0, 1.0)
        assert plan.proven
        assert plan.cost == expected


@pytest.mark.parametrize(("seed", "whole"), [(1, 6), (2, 12), (3, 20)])
def test_bars_cut_up_without_waste_are_put_together_again(seed: int, whole: int) -> None:
    draw = np.random.default_rng(seed)
    kerf, trim, length = 3, 8, 6000
    pieces: list[int] = []
    for _ in range(whole):
        number = int(draw.integers(3, 6))
        room = length - trim - kerf * (number - 1)
        ends = np.sort(draw.choice(np.arange(300, room - 300, 25), number - 1, replace=False))
        pieces += np.diff(np.concatenate([[0], ends, [room]])).tolist()
    cuts = [Cut(f"P{size}", float(size), count) for size, count in Counter(pieces).items()]
    plan = plan_cuts(cuts, [SIX, Bar("7 m", 7000.0, Decimal("38.00"))], float(kerf), float(trim), seconds=60)
    assert plan.proven
    assert plan.cost == whole * SIX.price
    assert all(bar.remnant == 0 for bar in plan.bars)


def shop_size(seed: int) -> tuple[list[Cut], list[Bar]]:
    """60 pieces of 12 lengths, 4 lengths to buy, 10 offcuts; in sixteenths of an inch."""
    draw = np.random.default_rng(seed)
    sixteenth = 25.4 / 16
    lengths = draw.choice(np.arange(6 * 16, 90 * 16), 12, replace=False)
    often = draw.multinomial(48, [1 / 12] * 12) + 1
    cuts = [Cut(f"A{n}", float(n * sixteenth), int(count)) for n, count in zip(lengths, often, strict=True)]
    feet = {10: "18.90", 12: "22.35", 20: "34.80", 24: "43.25"}
    bars = [Bar(f"{n} ft", n * 304.8, Decimal(price)) for n, price in feet.items()]
    offcuts = draw.choice(np.arange(12 * 16, 100 * 16), 10, replace=False)
    return cuts, bars + [Bar("offcut", float(n * sixteenth), Decimal(0), 1, True) for n in offcuts]


@pytest.mark.parametrize("seed", range(4))
def test_shop_size_is_proven(seed: int) -> None:
    cuts, bars = shop_size(seed)
    plan = plan_cuts(cuts, bars, 25.4 / 8, 25.4 / 2, seconds=60)
    assert plan.proven
    assert plan.cost == plan.bound == sum(bar.bar.price for bar in plan.bars)


def test_free_offcuts_are_used_before_anything_is_bought() -> None:
    offcuts = [Bar("offcut", 1300.0, Decimal(0), 2, True), Bar("offcut", 900.0, Decimal(0), 1, True)]
    plan = plan_cuts([Cut("A1", 600.0, 4)], [SIX, *offcuts], kerf=3.0)
    assert plan.cost == 0
    assert Counter(bar.bar.length for bar in plan.bars) == {1300.0: 2}
    assert plan.buy == ()
    assert plan.from_hand == ((offcuts[0], 2),)


def test_a_dear_offcut_stays_where_it_is() -> None:
    plan = plan_cuts([Cut("A1", 600.0, 2)], [SIX, Bar("offcut", 1300.0, Decimal(40), 1)], kerf=3.0)
    assert plan.cost == Decimal("31.50")


def test_equal_cost_takes_fewer_bars() -> None:
    three = Bar("3 m", 3000.0, Decimal("15.75"))
    plan = plan_cuts([Cut("A1", 1400.0, 4)], [three, SIX], kerf=3.0)
    assert plan.cost == Decimal("31.50")
    assert [bar.bar.label for bar in plan.bars] == ["6 m"]


def test_equal_cost_and_bars_leave_one_large_remnant() -> None:
    # 2 x 2.5 and 2 x 1.0 m: 3.5 m in each bar leaves 2 x 2.5 m, 6 m in one and 1 m in the other leaves 5 m in one piece
    plan = plan_cuts([Cut("A1", 2500.0, 2), Cut("A2", 1000.0, 2)], [SIX], kerf=0.0)
    assert len(plan.bars) == 2
    assert max(bar.remnant for bar in plan.bars) == pytest.approx(5000.0)


def test_free_bars_of_any_number_are_as_few_as_can_be() -> None:
    plan = plan_cuts([Cut("A1", 700.0, 7)], [Bar("bar", 2900.0, Decimal(0))], kerf=2.0)
    assert len(plan.bars) == 2


def test_plan_tells_what_is_lost_and_left() -> None:
    plan = plan_cuts([Cut("A1", 1000.0, 2), Cut("B1", 1500.0, 1)], [SIX], kerf=3.0, end_trim=10.0)
    (bar,) = plan.bars
    assert [(cut.mark, cut.length_mm) for cut in bar.cuts] == [("B1", 1500.0), ("A1", 1000.0), ("A1", 1000.0)]
    assert (bar.used, bar.kerf_lost, bar.end_trim, bar.remnant) == (3500.0, 9.0, 10.0, 2481.0)
    assert plan.waste_fraction == pytest.approx(2500 / 6000)
    assert str(plan.cost) == "31.50"


def test_lengths_without_common_measure_are_still_exact_enough() -> None:
    lengths = [885.619, 1234.5678, 777.77777, 501.0003]
    plan = plan_cuts([Cut(str(n), n, 3) for n in lengths], [SIX, Bar("offcut", 2400.003, Decimal(0), 1)], kerf=1.7)
    assert plan.proven
    for bar in plan.bars:
        assert bar.used + 1.7 * (len(bar.cuts) - 1) <= bar.bar.length + 1e-6


def test_inches_that_fit_to_the_last_hair_fit() -> None:
    # eight pieces of 12 1/16 in with seven kerfs of 1/8 in are 97 3/8 in
    inch = 25.4
    plan = plan_cuts([Cut("A1", 12.0625 * inch, 8)], [Bar("bar", 97.375 * inch, Decimal(9))], kerf=inch / 8)
    assert len(plan.bars) == 1


def test_nothing_to_cut_costs_nothing() -> None:
    plan = plan_cuts([Cut("A1", 100.0, 0)], [SIX])
    assert (plan.cost, plan.proven, len(plan.bars), plan.waste_fraction) == (Decimal(0), True, 0, 0.0)


def test_too_long_names_mark_length_and_longest_bar() -> None:
    with pytest.raises(CutTooLong, match=r"A1 of 5995\.0 mm; the longest bar is 6000\.0 mm and 5990\.0"):
        plan_cuts([Cut("A1", 5995.0), Cut("A2", 5990.0)], [SIX], kerf=3.0, end_trim=10.0)


def test_not_enough_on_hand() -> None:
    with pytest.raises(NotEnoughOnHand, match="do not suffice"):
        plan_cuts([Cut("A1", 900.0, 5)], [Bar("rest", 2000.0, Decimal(0), 2), Bar("short", 500.0, Decimal(1))])
    with pytest.raises(NotEnoughOnHand, match="no bar"):
        plan_cuts([Cut("A1", 900.0)], [Bar("rest", 2000.0, Decimal(0), 0)])


@pytest.mark.parametrize(
    ("cut", "bar", "kerf", "told"),
    [
        (Cut("A1", 0.0), SIX, 0.0, "length 0.0"),
        (Cut("A1", float("nan")), SIX, 0.0, "length nan"),
        (Cut("A1", 5.0, -1), SIX, 0.0, "quantity -1"),
        (Cut("A1", 5.0), Bar("b", -1.0, Decimal(1)), 0.0, "length -1.0"),
        (Cut("A1", 5.0), Bar("b", 9.0, Decimal(-1)), 0.0, "price -1"),
        (Cut("A1", 5.0), Bar("b", 9.0, Decimal("NaN")), 0.0, "price NaN"),
        (Cut("A1", 5.0), Bar("b", 9.0, Decimal(1), -2), 0.0, "-2 on hand"),
        (Cut("A1", 5.0), SIX, -0.1, "kerf is -0.1"),
    ],
)
def test_what_cannot_be_planned_with(cut: Cut, bar: Bar, kerf: float, told: str) -> None:
    with pytest.raises(CuttingError, match=told):
        plan_cuts([cut], [bar], kerf)


def hard() -> tuple[list[Cut], list[Bar]]:
    draw = np.random.default_rng(5)
    cuts = [Cut(f"H{n}", float(n)) for n in draw.uniform(400, 2600, 150)]
    return cuts, [Bar(f"{n} m", n * 1000.0, Decimal(n * 7) + Decimal(n % 3)) for n in (3, 4, 6, 7)]


@pytest.mark.parametrize("every", [0.0, clock.TELL_EVERY])
def test_stopping_gives_the_best_plan_so_far_with_its_bound(every: float, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(clock, "TELL_EVERY", every)
    told: list[Progress] = []

    def stop(progress: Progress) -> bool:
        told.append(progress)
        return False

    plan = plan_cuts(*hard(), kerf=3.0, seconds=60, progress=stop)
    assert told[0].cost is not None
    assert told[0].cost >= plan.cost >= plan.bound > 0
    assert sum(len(bar.cuts) for bar in plan.bars) == 150


def test_progress_never_loses_ground() -> None:
    told: list[Progress] = []

    def listen(progress: Progress) -> bool:
        told.append(progress)
        return len(told) < 8

    plan_cuts(*hard(), kerf=3.0, seconds=60, progress=listen)
    costs = [progress.cost for progress in told if progress.cost is not None]
    assert len(told) >= 3
    assert costs == sorted(costs, reverse=True)
    assert [progress.bound for progress in told] == sorted(progress.bound for progress in told)


def test_no_plan_in_time_is_not_taken_for_proof() -> None:
    # 20 bars on hand, each cut up into three: there is a plan, the quick rules miss it, and there is no time for more
    draw = np.random.default_rng(8)
    first, second = draw.integers(380, 491, 20), draw.integers(251, 380, 20)
    cuts = [Cut(str(n), float(n)) for n in (*first, *second, *(1000 - first - second))]
    bars = [Bar("rest", 1000.0, Decimal(1), 20)]
    with pytest.raises(NoPlanInTime, match="more seconds"):
        plan_cuts(cuts, bars, seconds=1e-6)
    assert plan_cuts(cuts, bars, seconds=60).cost == 20


def test_importing_the_room_does_not_import_the_solver() -> None:
    script = (
        "import sys, fitwright.making.cutting; print([m for m in ('ortools', 'scipy', 'pandas') if m in sys.modules])"
    )
    paths = {**os.environ, "PYTHONPATH": os.pathsep.join(sys.path)}
    done = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=True, env=paths)
    assert done.stdout.strip() == "[]"
