from __future__ import annotations

import pytest

from fitwright.mechanics.shrinkage import Reading, ShrinkageError, Spread, narrowed

PRIOR = Spread(1.0, 0.45)


def test_no_reading_leaves_the_prior() -> None:
    assert narrowed(PRIOR, []) is PRIOR


def test_readings_narrow_and_move_toward_what_was_measured() -> None:
    one = narrowed(PRIOR, [Reading(2.0, 1.0)])
    many = narrowed(PRIOR, [Reading(2.0, 1.0)] * 10)
    assert PRIOR.sd > one.sd > many.sd
    assert PRIOR.mean > one.mean > many.mean > 0.5
    assert many.basis == "10 readings of this shop"


def test_a_reading_that_agrees_only_narrows() -> None:
    agreed = narrowed(PRIOR, [Reading(3.0, 3.0)])
    assert agreed.mean == pytest.approx(1.0)
    assert agreed.sd < PRIOR.sd


def test_the_sign_of_a_prediction_does_not_matter() -> None:
    assert narrowed(PRIOR, [Reading(-2.0, -1.0)]) == narrowed(PRIOR, [Reading(2.0, 1.0)])


def test_a_prediction_of_nothing_tells_nothing() -> None:
    assert narrowed(PRIOR, [Reading(0.0, 0.4)]).sd == pytest.approx(PRIOR.sd)


def test_a_reading_without_spread_is_refused() -> None:
    with pytest.raises(ShrinkageError, match="say how well it was measured"):
        narrowed(PRIOR, [Reading(1.0, 1.0, 0.0, 0.0)])


def test_a_sure_sign_keeps_the_range_on_its_side() -> None:
    sure, unsure = Spread(-1.0, 0.7, sure=True), Spread(-1.0, 0.7)
    assert sure.high < 0 < unsure.high
    assert sure.low < -1.0 < sure.high
    assert sure.most == pytest.approx(-sure.low)
