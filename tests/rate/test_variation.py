"""Virtual builds against the normal distribution in closed form, and how their error falls with their number."""

from __future__ import annotations

import numpy as np
import pytest
from scipy.stats import multivariate_normal, norm

from fitwright.mechanics.variation import Outcome, Sensitivity, Source
from fitwright.mechanics.variation.questions import Question, Rule
from fitwright.mechanics.variation.simulate import count, sample, scales, simulate

GAP = Sensitivity(
    (Outcome("gap left", "gap", 1.0), Outcome("gap right", "gap", 1.4)),
    (Source("one", "tape", 0.6), Source("two", "survey", 1.1), Source("three", "trim", 0.4)),
    np.array([[1.0, -0.5, 0.3], [0.2, 0.7, -1.0]]),
)
LEFT = Question("across", ((0,),), (Rule("fits", 0.0, None), Rule("close", 0.5, 2.0)))
LEAST = Question("across", ((0, 1),), (Rule("fits", 0.0, None),))
MANY = 400_000
SEED = 11


def chance(question: Question, n: int, seed: int) -> tuple[float, ...]:
    tally = simulate(GAP, [question], scales([question], sample(GAP, 2000, 0)), n, seed)
    return tuple(passed / n for passed in tally.passed[0])


def test_one_gap_is_the_normal_distribution() -> None:
    """Four standard errors of 400,000 builds are 0.3 %."""
    law = norm(1.0, GAP.spread[0])
    fits, close = chance(LEFT, MANY, SEED)
    assert fits == pytest.approx(law.sf(0.0), abs=0.003)
    assert close == pytest.approx(law.cdf(2.0) - law.cdf(0.5), abs=0.003)


def test_the_smaller_of_two_gaps_is_the_bivariate_normal() -> None:
    """Both above 0: the distribution function of the two gaps turned round."""
    both = multivariate_normal(-GAP.nominal, GAP.covariance).cdf(np.zeros(2))
    assert chance(LEAST, MANY, SEED)[0] == pytest.approx(both, abs=0.003)


def test_builds_from_the_covariance_are_alike() -> None:
    few = sample(GAP, MANY, SEED)
    assert np.cov(few.T) == pytest.approx(GAP.covariance, rel=0.02)
    assert few.mean(axis=0) == pytest.approx(GAP.nominal, abs=0.01)
    tally = count([LEAST], scales([LEAST], few), few)
    assert tally.passed[0][0] / MANY == pytest.approx(chance(LEAST, MANY, SEED)[0], abs=0.004)


def test_the_error_falls_with_the_root_of_the_number() -> None:
    exact = norm(1.0, GAP.spread[0]).sf(0.0)
    sizes, errors = (500, 8000), []
    for n in sizes:
        off = [chance(LEFT, n, seed)[0] - exact for seed in range(40)]
        errors.append(float(np.sqrt(np.mean(np.square(off)))))
    rate = np.log(errors[0] / errors[1]) / np.log(sizes[1] / sizes[0])
    assert rate == pytest.approx(0.5, abs=0.12)


def test_single_precision_does_no_harm() -> None:
    """The very same errors in double precision: outcomes to a hundred thousandth of their spread, counts to a few."""
    stream = np.random.Generator(np.random.SFC64(SEED))
    errors = stream.standard_normal((MANY, 3), dtype=np.float32)
    scaled = GAP.matrix * GAP.spreads
    single = errors @ scaled.T.astype(np.float32) + GAP.nominal.astype(np.float32)
    double = errors.astype(np.float64) @ scaled.T + GAP.nominal
    assert np.abs(single - double).max() < 1e-5 * GAP.spread.min()
    assert abs(int((single.min(axis=1) >= 0).sum()) - int((double.min(axis=1) >= 0).sum())) <= 5


def test_threads_do_not_change_the_answer() -> None:
    """Blocks have streams of their own: 100,000 builds in one go are those of the blocks counted one by one."""
    bins = scales([LEAST], sample(GAP, 2000, 0))
    whole = simulate(GAP, [LEAST], bins, 100_000, SEED)
    again = simulate(GAP, [LEAST], bins, 100_000, SEED)
    assert whole.passed == again.passed
    assert np.array_equal(whole.counts[0], again.counts[0])
