from __future__ import annotations

import numpy as np
import pytest

from fitwright.making.cutting.clock import Clock
from fitwright.making.cutting.master import Master, Prices, proven_bound, relax
from fitwright.making.cutting.problem import Problem

FULL = [
    *[(2, 0, 0, 0), (1, 1, 0, 1), (1, 0, 1, 1), (1, 0, 0, 3), (0, 2, 0, 2), (0, 1, 2, 0), (0, 1, 1, 2), (0, 1, 0, 4)],
    *[(0, 0, 3, 0), (0, 0, 2, 2), (0, 0, 1, 4), (0, 0, 0, 7)],
]
"""Every full way of cutting 45, 36, 31 and 14 from 100, by hand."""


def paper() -> Problem:
    """Chvatal, Linear Programming (1983), chapter 13: the relaxation is worth 452.25."""
    sizes, demand, capacity = np.array([45, 36, 31, 14]), np.array([97, 610, 395, 211]), np.array([100])
    return Problem(sizes, demand, capacity, np.array([1]), np.array([1313]), np.array([0]))


def test_relaxation_of_a_published_case() -> None:
    found = relax(paper(), Master(paper()), Clock(60))
    assert found is not None
    assert found.value == pytest.approx(452.25, abs=1e-6)
    assert found.bound == 453
    assert not found.short


def test_limited_bars_have_rent_and_the_bound_counts_it() -> None:
    # one free bar of 10 takes two pieces of 5; the other two cost a bar of 5 each
    problem = Problem(
        np.array([5]), np.array([4]), np.array([10, 5]), np.array([0, 3]), np.array([1, 4]), np.array([0, 0])
    )
    found = relax(problem, Master(problem), Clock(60))
    assert found is not None
    assert found.bound == 6
    assert found.bars(problem).tolist() == pytest.approx([1, 2])
    assert found.prices.rent[0] > 0


def test_bars_that_do_not_suffice_leave_the_relaxation_short_or_beyond_any_cost() -> None:
    problem = Problem(np.array([5]), np.array([4]), np.array([10]), np.array([2]), np.array([1]), np.array([0]))
    found = relax(problem, Master(problem), Clock(60), problem.dearest)
    assert found is not None
    assert found.short
    assert found.bound >= problem.dearest


@pytest.mark.parametrize("seed", range(20))
def test_any_prices_give_a_valid_bound(seed: int) -> None:
    draw = np.random.default_rng(seed)
    problem = paper()
    worth = draw.integers(0, 60, 4)
    best = np.array([max(np.dot(counts, worth) for counts in FULL)])
    bound, value = proven_bound(problem, Prices(worth, np.array([0]), 100), best)
    assert bound <= 453
    assert value <= 452.25 + 1e-9
