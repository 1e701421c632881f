from __future__ import annotations

from itertools import product

import numpy as np
import pytest

from fitwright.making.cutting import knapsack
from fitwright.making.cutting.knapsack import Ceiling, Whole, fillings


def best_by_trial(sizes: Whole, worth: Whole, most: Whole, capacity: int) -> int:
    counts = product(*(range(int(n) + 1) for n in most))
    return max(int(np.dot(c, worth)) for c in counts if np.dot(c, sizes) <= capacity)


@pytest.mark.parametrize("table", [0, 10_000], ids=["list", "table"])
@pytest.mark.parametrize("seed", range(12))
def test_best_filling_of_every_bar_against_trial(seed: int, table: int, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(knapsack, "TABLE_CAPACITY", table)
    draw = np.random.default_rng(seed)
    sizes, worth = draw.integers(3, 30, 5), draw.integers(0, 40, 5)
    most, bars = draw.integers(0, 4, 5), draw.integers(10, 90, 3)
    filled = fillings(sizes, worth, most, Ceiling(bars, np.full(3, -1)))
    for bar in bars.tolist():
        index = filled.best(bar)
        counts = np.array(filled.counts(index))
        assert filled.worth(index) == np.dot(counts, worth) == best_by_trial(sizes, worth, most, bar)
        assert np.dot(counts, sizes) <= bar
        assert (counts <= most).all()


def test_a_filling_above_the_ceiling_is_never_dropped(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(knapsack, "TABLE_CAPACITY", 0)
    draw = np.random.default_rng(3)
    sizes, most, bars = draw.integers(100_000, 900_000, 9), draw.integers(1, 3, 9), np.array([1_500_000, 2_000_000])
    worth = sizes + draw.integers(0, 9_000, 9)
    free = fillings(sizes, worth, most, Ceiling(bars, np.full(2, -1)))
    best = np.array([free.worth(free.best(bar)) for bar in bars.tolist()])
    near = fillings(sizes, worth, most, Ceiling(bars, best - 1))
    assert [near.worth(near.best(bar)) for bar in bars.tolist()] == best.tolist()
