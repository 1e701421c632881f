from __future__ import annotations

import math

import numpy as np
import pytest

from fitwright.shop.learning import BendTrial, SlopePrior, drift, outliers
from fitwright.shop.learning.doubts import surprises

D = math.radians(1.0)
PRIOR = SlopePrior(0.03, 0.03)


def series(rng: np.random.Generator, count: int, opened: float = 4.5, sigma: float = 0.25) -> list[BendTrial]:
    return [BendTrial(90 * D, (90 - opened + float(rng.normal(0, sigma))) * D) for _ in range(count)]


def test_a_trial_that_the_others_do_not_explain_is_named() -> None:
    trials = series(np.random.default_rng(1), 9)
    trials[4] = BendTrial(90 * D, 87.8 * D)
    (odd,) = outliers(trials, PRIOR)
    assert odd.place == 4
    assert odd.expected == pytest.approx(85.5 * D, abs=0.4 * D)
    assert odd.chance < 1e-3


def test_two_trials_cannot_say_which_is_wrong() -> None:
    assert outliers([BendTrial(90 * D, 85 * D), BendTrial(90 * D, 80 * D)], PRIOR) == ()


def test_good_trials_are_rarely_doubted() -> None:
    """Of 150 shops with 20 good trials at most one in ten is told of an outlier, and at most one in ten of a drift."""
    rng = np.random.default_rng(8)
    shops = [series(rng, 20) for _ in range(150)]
    assert sum(bool(outliers(trials, PRIOR)) for trials in shops) <= 15
    assert sum(drift(trials, PRIOR) is not None for trials in shops) <= 15


def test_a_drift_is_found_with_its_beginning_and_size() -> None:
    rng = np.random.default_rng(9)
    found = [drift([*series(rng, 12), *series(rng, 8, opened=5.5)], PRIOR) for _ in range(60)]
    told = [one for one in found if one is not None]
    assert len(told) >= 54
    assert np.median([one.since for one in told]) == pytest.approx(12, abs=1)
    assert np.median([one.by for one in told]) == pytest.approx(1.0 * D, abs=0.2 * D)
    less = drift([*series(rng, 12), *series(rng, 8, opened=3.2)], PRIOR)
    assert less is not None
    assert less.by < 0


def test_one_slip_is_no_drift() -> None:
    trials = series(np.random.default_rng(10), 12)
    trials[6] = BendTrial(90 * D, 88.5 * D)
    assert drift(trials, PRIOR) is None


def test_surprises_of_good_trials_are_standard() -> None:
    rng = np.random.default_rng(12)
    steps = np.concatenate([surprises(series(rng, 25), PRIOR)[5:] for _ in range(30)])
    assert float(steps.mean()) == pytest.approx(0.0, abs=0.15)
    assert float(steps.std()) == pytest.approx(1.0, abs=0.15)


def test_old_trials_are_left_in_peace() -> None:
    """Of many trials the newest are looked at; places are counted from the first all the same."""
    trials = series(np.random.default_rng(13), 90)
    trials[5] = BendTrial(90 * D, 80 * D)
    trials[80] = BendTrial(90 * D, 82 * D)
    assert [one.place for one in outliers(trials, PRIOR)] == [80]
    found = drift([*series(np.random.default_rng(14), 80), *series(np.random.default_rng(15), 10, opened=6.0)], PRIOR)
    assert found is not None
    assert 78 <= found.since <= 81
