"""Least squares by hand, and what each measurement is off the others by leaving it out."""

from __future__ import annotations

import numpy as np
import pytest
from numpy.typing import NDArray

from fitwright.place.survey.adjusting import adjust, chi2_beyond

Floats = NDArray[np.float64]
# three heights levelled in two triangles: a, b, c from one bench mark, b - a and c - b
SLOPE = np.array([[1.0, 0, 0], [0, 1, 0], [0, 0, 1], [-1, 1, 0], [0, -1, 1]])


def heights(unknowns: Floats) -> Floats:
    return SLOPE @ unknowns


MEASURED = np.array([10.0, 20.4, 30.0, 10.2, 10.0])
SPREADS = np.array([1.0, 1.0, 2.0, 0.5, 1.0])


def test_the_mean_of_two() -> None:
    found = adjust(lambda x: np.array([x[0], x[0]]), np.array([10.0, 13.0]), np.array([1.0, 2.0]), np.zeros(1))
    # weights 1 and 1/4: 10 + 3 x (1/4) / (5/4)
    assert found.unknowns == pytest.approx([10.6])
    assert found.chi2 == pytest.approx(0.6**2 + (2.4 / 2) ** 2)
    assert found.covariance == pytest.approx(np.array([[1 / 1.25]]))


def test_redundancy_numbers_sum_to_the_freedom() -> None:
    found = adjust(heights, MEASURED, SPREADS, np.zeros(3))
    assert found.freedom == 2
    assert found.redundancy.sum() == pytest.approx(2.0)


@pytest.mark.parametrize("left_out", range(5))
def test_off_is_against_what_all_the_others_say(left_out: int) -> None:
    found = adjust(heights, MEASURED, SPREADS, np.zeros(3))
    kept = np.arange(5) != left_out
    others = np.linalg.lstsq(SLOPE[kept] / SPREADS[kept, None], MEASURED[kept] / SPREADS[kept], rcond=None)[0]
    assert found.off[left_out] == pytest.approx(MEASURED[left_out] - SLOPE[left_out] @ others)


def test_what_nothing_checks_is_off_by_nothing() -> None:
    slope = np.array([[1.0, 0], [1, 0], [0, 1]])
    found = adjust(lambda x: slope @ x, np.array([1.0, 1.4, 7.0]), np.ones(3), np.zeros(2))
    assert found.normalised[2] == 0.0
    assert found.off[:2] == pytest.approx([-0.4, 0.4])


def test_no_freedom_is_no_doubt() -> None:
    assert chi2_beyond(0.0, 0) == 1.0
