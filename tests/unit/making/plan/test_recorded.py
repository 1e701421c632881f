from __future__ import annotations

import pytest

from fitwright.making.plan import Rate, usual_rates
from fitwright.making.plan.recorded import recorded_rates
from fitwright.shop.learning.hours import HoursSeen, hours_factors


def test_a_kind_with_records_takes_longer_and_others_stay() -> None:
    factors = hours_factors([HoursSeen("bend", 2.0, 1.0)] * 6)
    rates = recorded_rates(factors)
    usual, times = usual_rates(), factors["bend"].factor
    assert 1.5 < times < 2
    assert rates["bend"].minutes(8, 2) == pytest.approx(usual["bend"].minutes(8, 2) * times, abs=1)
    assert "6 recorded times of this shop" in rates["bend"].basis
    assert {kind: rate for kind, rate in rates.items() if kind != "bend"} == {
        kind: rate for kind, rate in usual.items() if kind != "bend"
    }


def test_the_shops_own_rates_are_what_is_multiplied() -> None:
    own = {"bend": Rate(1.0, 2.0, "bend")}
    rates = recorded_rates(hours_factors([HoursSeen("bend", 2.0, 1.0)] * 6), own)
    assert rates["bend"].each == pytest.approx(2.0 * rates["bend"].start)


def test_records_of_a_kind_that_there_is_not_are_passed_over() -> None:
    assert recorded_rates(hours_factors([HoursSeen("polish", 2.0, 1.0)])) == usual_rates()
