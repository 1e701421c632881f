from __future__ import annotations

from itertools import product

import numpy as np
import pytest

from fitwright.making.cutting.branch import choose_bars
from fitwright.making.cutting.clock import Clock
from fitwright.making.cutting.enumerate import TooMany, patterns_within
from fitwright.making.cutting.exact import best_of
from fitwright.making.cutting.master import Master, Relaxation, relax
from fitwright.making.cutting.problem import Pattern, Problem


def small(seed: int) -> Problem:
    draw = np.random.default_rng(seed)
    sizes = np.sort(draw.choice(np.arange(12, 60), 5, replace=False))[::-1].astype(np.int64)
    capacity, cost = np.array([100, 73, 40]), np.array([20, 15, 0])
    return Problem(sizes, draw.integers(1, 5, 5), capacity, cost, np.array([25, 25, 2]), np.zeros(3, dtype=np.int64))


def relaxed(problem: Problem) -> Relaxation:
    found = relax(problem, Master(problem), Clock(60))
    assert found is not None
    return found


def full_patterns(problem: Problem, relaxation: Relaxation, gap: float) -> set[Pattern]:
    """By trial of every combination of counts."""
    found = set()
    scale, prices = relaxation.prices.scale, relaxation.prices
    for bar, capacity in enumerate(problem.capacity.tolist()):
        for counts in product(*(range(int(n) + 1) for n in problem.demand)):
            length = int(np.dot(counts, problem.sizes))
            wanted = problem.sizes[np.array(counts) < problem.demand]
            if length > capacity or (wanted + length <= capacity).any():
                continue
            cost = problem.cost[bar] * scale + prices.rent[bar] - np.dot(counts, prices.worth)
            if cost <= gap * scale:
                found.add(Pattern(bar, counts))
    return found


@pytest.mark.parametrize("gap", [0.01, 3.0, 50.0])
@pytest.mark.parametrize("seed", range(4))
def test_every_full_pattern_within_the_gap_is_listed(seed: int, gap: float) -> None:
    problem = small(seed)
    relaxation = relaxed(problem)
    assert set(patterns_within(problem, relaxation.prices, gap, 10_000)) == full_patterns(problem, relaxation, gap)


def test_too_many_patterns_are_refused() -> None:
    problem = small(0)
    with pytest.raises(TooMany):
        patterns_within(problem, relaxed(problem).prices, 1000.0, 5)


@pytest.mark.parametrize("seed", range(4))
def test_programme_over_the_patterns_agrees_with_choosing_bars(seed: int) -> None:
    problem = small(seed)
    relaxation = relaxed(problem)
    chosen = choose_bars(problem, Master(problem), 0, problem.dearest, Clock(60))
    assert chosen.layout is not None
    assert not chosen.open
    least = problem.cost_of(chosen.layout)
    patterns = patterns_within(problem, relaxation.prices, least + 1 - relaxation.value, 10_000)
    answer = best_of(problem, patterns, relaxation.bound, least + 1, Clock(60))
    assert answer.layout is not None
    assert problem.holds(answer.layout)
    assert problem.cost_of(answer.layout) == answer.bound == least
    none = best_of(problem, patterns, 0, least - 1, Clock(60))
    assert none.layout is None
    assert none.bound == least


def test_a_clock_that_is_over_ends_the_programme_with_what_was_known() -> None:
    problem = small(1)
    patterns = patterns_within(problem, relaxed(problem).prices, 50.0, 10_000)
    answer = best_of(problem, patterns, 7, 1000, Clock(0.0))
    assert (answer.layout, answer.bound) == (None, 7)
