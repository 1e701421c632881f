from __future__ import annotations

import math

import pytest

from fitwright.shop.learning import BendLaw, BendTrial, SlopePrior, trials_worth

D = math.radians(1.0)
PRIOR = SlopePrior(0.03, 0.03)
UNTRIED = BendLaw((), PRIOR, "")


def test_an_untried_die_is_worth_a_trial_and_a_tried_one_is_not() -> None:
    first = trials_worth(UNTRIED, 90 * D, 0.5 * D, bends=4)
    assert first.trials >= 1
    assert first.after > 0.7 > 0.4 > first.now
    assert first.saves_minutes > 0
    tried = BendLaw(tuple(BendTrial(90 * D, 85.5 * D) for _ in range(8)), PRIOR, "")
    assert trials_worth(tried, 90 * D, 0.5 * D, bends=4).trials == 0


def test_more_bends_and_finer_tolerance_are_worth_more_trials() -> None:
    few, many = (trials_worth(UNTRIED, 90 * D, 0.5 * D, bends).trials for bends in (2, 60))
    assert few < many
    assert trials_worth(UNTRIED, 90 * D, 3.0 * D, bends=4).trials <= few


def test_the_chance_is_that_of_a_normal_within_the_tolerance() -> None:
    """With the mean known to 0.4° and noise of 0.3°, 0.5° is one deviation: 68.3 %."""
    worth = trials_worth(UNTRIED, 90 * D, 1.0, bends=1)
    assert worth.now == pytest.approx(1.0, abs=1e-6)
    command = 90 * D / 0.97
    together = math.hypot(UNTRIED.mean_opening(command).deviation, UNTRIED.fit.noise)
    assert trials_worth(UNTRIED, 90 * D, together, bends=1).now == pytest.approx(0.6827, abs=1e-4)


def test_costs_decide() -> None:
    assert trials_worth(UNTRIED, 90 * D, 0.5 * D, 4, trial_minutes=1e6).trials == 0
    cheap = trials_worth(UNTRIED, 90 * D, 0.5 * D, 4, trial_minutes=0.01)
    assert cheap.trials >= 5
