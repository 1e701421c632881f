from __future__ import annotations

import numpy as np
import pytest

from fitwright.making.cutting.bounds import bars_needed, length_bound
from fitwright.making.cutting.problem import Problem


def of_one_kind(capacity: int, sizes: list[int], demand: list[int]) -> Problem:
    pieces = sum(demand)
    return Problem(
        np.array(sizes), np.array(demand), np.array([capacity]), np.array([1]), np.array([pieces]), np.array([0])
    )


@pytest.mark.parametrize(
    ("capacity", "sizes", "demand", "bars"),
    [
        (10, [5], [5], 3),  # two of exactly half to a bar
        (10, [6], [4], 4),  # more than half: one to a bar, though the length alone asks for 3
        (100, [34], [6], 3),  # more than a third: two to a bar
        (100, [51, 50], [3, 2], 4),  # the halves do not go with those above half
        (100, [60, 45, 41], [2, 2, 2], 4),  # no more than two to a bar and none with 60: 2 + 2, by trial
    ],
)
def test_by_hand(capacity: int, sizes: list[int], demand: list[int], bars: int) -> None:
    assert bars_needed(of_one_kind(capacity, sizes, demand)) == bars


def test_by_length_with_bars_at_different_rates() -> None:
    # 28 long: 9 free, then 10 for 5 twice at half a unit a millimetre: 19 x 0.5 = 9.5
    problem = Problem(
        np.array([7]), np.array([4]), np.array([10, 9]), np.array([5, 0]), np.array([4, 1]), np.array([0, 0])
    )
    assert length_bound(problem) == 10
