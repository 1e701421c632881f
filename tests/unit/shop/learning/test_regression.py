from __future__ import annotations

import numpy as np
import pytest

from fitwright.shop.learning.errors import LearningError
from fitwright.shop.learning.regression import Floats, Noise, regress


def test_no_measurements_leave_the_prior() -> None:
    fit = regress(np.zeros((0, 2)), np.zeros(0), np.array([1.0, 2.0]), np.array([0.1, 0.2]), Noise(0.5, 6.0))
    assert fit.value(np.array([1.0, 1.0])).mean == pytest.approx(3.0)
    assert fit.value(np.array([1.0, 1.0])).deviation == pytest.approx(np.hypot(0.1, 0.2))
    # an inverse-gamma variance of weight 6 has mean 6 / 4 of its scale
    assert fit.noise == pytest.approx(0.5 * np.sqrt(1.5), rel=0.01)


def test_many_measurements_pin_the_noise_down() -> None:
    rng = np.random.default_rng(5)
    fit = regress(np.ones((2000, 1)), rng.normal(3.0, 0.2, 2000), np.zeros(1), np.ones(1), Noise(1.0, 4.0))
    assert fit.noise == pytest.approx(0.2, rel=0.06)
    assert fit.value(np.ones(1)).deviation == pytest.approx(0.2 / np.sqrt(2000), rel=0.06)


@pytest.mark.parametrize(
    ("design", "seen", "scale", "noise"),
    [
        (np.ones((2, 1)), np.zeros(3), np.ones(1), Noise(1.0)),
        (np.ones((2, 1)), np.array([1.0, np.nan]), np.ones(1), Noise(1.0)),
        (np.ones((2, 1)), np.zeros(2), np.zeros(1), Noise(1.0)),
        (np.ones((2, 1)), np.zeros(2), np.ones(1), Noise(0.0)),
    ],
)
def test_what_cannot_be_learnt_from_is_refused(
    design: Floats, seen: Floats, scale: Floats, noise: Noise
) -> None:  # fmt: skip
    with pytest.raises(LearningError):
        regress(design, seen, np.zeros(1), scale, noise)
