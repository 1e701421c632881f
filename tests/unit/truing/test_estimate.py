"""The Gaussian update against what it is by hand."""

from __future__ import annotations

import math

import numpy as np
import pytest

from fitwright.mechanics.model import Floats
from fitwright.truing.estimate import estimate, unread
from fitwright.truing.functional import Functional
from fitwright.truing.prior import Prior, plain
from tests.unit.truing.samples import rack


def of_two(first: float, second: float) -> Prior:
    """A prior of two elementary errors, one a source each."""
    setting = rack().making
    assert setting is not None
    return Prior(setting, setting.drawn.sources[:2], np.eye(2), np.array([first, second]))


def reads(row: list[float], **more: float) -> Functional:
    return Functional(10.0, np.array(row), 0, (0,), more)


def test_one_reading_of_one_error_is_the_weighted_mean() -> None:
    """Prior 0 ± 2, reading 3 ± 1: mean 3 * 4 / 5, variance 4 * 1 / 5."""
    found = estimate(of_two(2.0, 1.0), [reads([1.0, 0.0])], np.array([13.0]), np.array([1.0]))
    assert found.mean == pytest.approx([2.4, 0.0])
    assert found.covariance == pytest.approx(np.diag([0.8, 1.0]))
    assert found.spread(np.array([1.0, 0.0])) == pytest.approx(math.sqrt(0.8))
    assert found.standing == pytest.approx([3.0 / math.sqrt(5.0)])


def test_a_sum_is_shared_by_variance() -> None:
    """x + y = 5 read exactly, prior variances 4 and 1: four fifths and one fifth, which then go against each other."""
    found = estimate(of_two(2.0, 1.0), [reads([1.0, 1.0])], np.array([15.0]), np.array([1e-6]))
    assert found.mean == pytest.approx([4.0, 1.0])
    assert found.covariance[0, 1] == pytest.approx(-0.8)


def test_what_nobody_knows_takes_up_what_readings_have_in_common() -> None:
    shared = [reads([1.0, 0.0], level=1.0), reads([0.0, 1.0], level=1.0)]
    found = estimate(of_two(1.0, 1.0), shared, np.array([110.0, 110.0]), np.array([0.1, 0.1]))
    assert found.mean == pytest.approx([0.0, 0.0], abs=1e-3)


def test_full_geometry_is_gone_round_until_it_settles() -> None:
    """h = 10 + 20 sin x, read 19 exactly: x = asin 0.45, where its first order about 0 gives 0.45."""

    def exact(errors: Floats) -> float:
        return 10.0 + 20.0 * math.sin(float(errors[0]))

    curved = Functional(10.0, np.array([20.0, 0.0]), 0, (0,), exact=exact)
    found = estimate(of_two(1.0, 1.0), [curved], np.array([19.0]), np.array([1e-4]))
    assert found.mean[0] == pytest.approx(math.asin(0.45), abs=1e-6)


def test_without_readings_it_is_the_virtual_builds() -> None:
    setting = rack().making
    assert setting is not None
    before = unread(plain(setting))
    felt = np.linalg.norm(setting.acting @ before.root, axis=1)
    assert felt == pytest.approx(setting.sensitivity.spread)
