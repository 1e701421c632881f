from __future__ import annotations

import numpy as np
import pytest

from fitwright.shop.learning.hours import HoursSeen, hours_factors


def test_nothing_recorded_is_the_table() -> None:
    usual = hours_factors(())[""]
    assert usual.factor == pytest.approx(1.0)
    assert usual.count == 0
    assert usual.low < 0.6 < 1.6 < usual.high


def test_few_records_count_little_and_many_decide() -> None:
    found = [hours_factors([HoursSeen("bend", 2.0, 1.0)] * count)["bend"] for count in (1, 3, 10, 100)]
    factors = [one.factor for one in found]
    assert factors == sorted(factors)
    assert factors[0] == pytest.approx(2 ** (1 / 3), abs=0.12)
    assert 1.9 < factors[3] < 2.0
    assert [one.count for one in found] == [1, 3, 10, 100]
    assert found[3].of_mean < found[0].of_mean / 3


def test_a_kind_without_records_stays_the_table() -> None:
    found = hours_factors([HoursSeen("bend", 2.0, 1.0)] * 5)
    assert set(found) == {"bend", ""}
    assert found[""].factor == pytest.approx(1.0)


def test_times_that_cannot_be_are_left_out() -> None:
    wrong = [HoursSeen("saw", 100.0, 1.0), HoursSeen("saw", 0.0, 1.0), HoursSeen("saw", 1.0, 0.0)]
    assert set(hours_factors(wrong)) == {""}


def test_the_range_holds_nine_steps_in_ten() -> None:
    rng = np.random.default_rng(5)
    inside = tried = 0
    for _ in range(400):
        middle, sigma = float(rng.normal(0, 0.3)), 0.4
        seen = [HoursSeen("weld", float(np.exp(rng.normal(middle, sigma))), 1.0) for _ in range(6)]
        found = hours_factors(seen)["weld"]
        ahead = np.exp(rng.normal(middle, sigma, 3))
        inside += int(np.sum((found.low <= ahead) & (ahead <= found.high)))
        tried += 3
    assert inside / tried == pytest.approx(0.9, abs=0.03)
