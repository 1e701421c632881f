"""Closed forms of Bayesian regression, of a normal mean and of a normal variance.

Bishop, Pattern Recognition and Machine Learning (2006), 3.3.1; Gelman, Carlin, Stern, Dunson, Vehtari and Rubin,
Bayesian Data Analysis, 3rd edition (2013), 2.6 and 3.2. Forms recalled, from memory; quantiles of Student's t by SciPy.
"""

from __future__ import annotations

import math

import numpy as np
import pytest
from scipy import stats

from fitwright.shop.learning.regression import Noise, regress
from fitwright.shop.learning.spreads import PRIOR_WEIGHT, spread_from


def test_known_noise_gives_the_posterior_of_the_book() -> None:
    """Bishop, Pattern Recognition and Machine Learning, equations 3.50 and 3.51: S = (S0^-1 + X'X / s^2)^-1 and
    m = S (S0^-1 m0 + X'y / s^2); here worked out by plain matrices."""
    rng = np.random.default_rng(3)
    design, seen = rng.normal(size=(7, 3)), rng.normal(size=7)
    prior, scale, sigma = np.array([0.5, -1.0, 2.0]), np.array([1.0, 0.3, 2.0]), 0.7
    fit = regress(design, seen, prior, scale, Noise(sigma, 1e10))
    precision = np.diag(scale**-2)
    covariance = np.linalg.inv(precision + design.T @ design / sigma**2)
    mean = covariance @ (precision @ prior + design.T @ seen / sigma**2)
    for row in (*np.eye(3), np.array([1.0, 2.0, -1.0])):
        assert fit.value(row).mean == pytest.approx(row @ mean, abs=1e-6)
        assert fit.value(row).deviation == pytest.approx(np.sqrt(row @ covariance @ row), rel=1e-4)
        assert fit.next(row).deviation == pytest.approx(np.sqrt(row @ covariance @ row + sigma**2), rel=1e-4)


def test_without_a_prior_on_the_mean_it_is_students_t() -> None:
    """Gelman and others, Bayesian Data Analysis, 3.2: with a flat mean and 1 / variance, (mean - m) / (s / sqrt n) is t
    with n - 1 degrees of freedom. A noise prior of weight w and deviation d adds w to them and w d^2 to the squares."""
    seen = np.array([4.1, 3.7, 4.4, 4.0, 3.9])
    noise = Noise(0.3, 4.0)
    fit = regress(np.ones((5, 1)), seen, np.zeros(1), np.full(1, 1e6), noise)
    squares = float(np.sum((seen - seen.mean()) ** 2)) + noise.weight * noise.deviation**2
    degrees = 4 + noise.weight
    expected = stats.t(degrees, seen.mean(), np.sqrt(squares / degrees / 5))
    low, high = fit.value(np.ones(1)).interval(0.9)
    assert low == pytest.approx(expected.ppf(0.05), abs=2e-4)
    assert high == pytest.approx(expected.ppf(0.95), abs=2e-4)
    ahead = stats.t(degrees, seen.mean(), np.sqrt(squares / degrees * 1.2))
    assert fit.next(np.ones(1)).quantile(0.95) == pytest.approx(ahead.ppf(0.95), abs=5e-4)
    assert fit.next(np.ones(1)).below(4.5) == pytest.approx(ahead.cdf(4.5), abs=5e-4)


def test_exact_readings_give_the_posterior_of_the_book() -> None:
    """Scaled inverse chi-square, Gelman and others 2.6: the scale becomes (w s0^2 + sum of squares) / (w + n)."""
    errors = [0.3, -0.5, 0.2, 0.6, -0.1]
    expected = math.sqrt((PRIOR_WEIGHT * 0.2**2 + sum(e * e for e in errors)) / (PRIOR_WEIGHT + 5))
    found = spread_from(errors, [0.0] * 5, 0.2)
    assert found.value == pytest.approx(expected, rel=2e-3)
    assert found.factor == pytest.approx(found.value / 0.2)
    assert found.low < found.value < found.high
