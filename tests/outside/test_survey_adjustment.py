"""Adjusting a survey and doubting its lengths, against what textbooks and tables print.

NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.4: critical values of the chi-square distribution (values from
memory).
W. Baarda, A testing procedure for use in geodetic networks, 1968: redundancy numbers, normalised residuals, and 3.29 as
the bound of one that is wrong (0.1 %, both sides of the normal distribution).
J. Mahun, Least Squares Lite, level circuit (open text): two elevations from four and three bench marks, residuals.
scipy: another survival function of chi-squared, and another thin-plate spline.
Directive 2014/32/EU, annex X (MI-008), chapter I: errors of tapes, class II as shops print it by length.
"""

from __future__ import annotations

from math import ceil

import numpy as np
import pytest
from scipy.interpolate import RBFInterpolator
from scipy.stats import chi2, norm

from fitwright.place.resting import floor_heights
from fitwright.place.survey.adjusting import adjust, chi2_beyond
from fitwright.place.survey.closing import WRONG
from fitwright.place.survey.tape import TAPE_MM, TAPE_PER_M

# NIST 1.3.6.7.4, upper tail: degrees of freedom, and the values for 0.05 and 0.001
NIST = [(1, 3.841, 10.828), (2, 5.991, 13.816), (3, 7.815, 16.266), (5, 11.070, 20.515), (10, 18.307, 29.588)]
# Mahun: most probable value less each, from four bench marks for Q and three for R [ft], and the sums of squares
LEVELS = [([-0.015, 0.015, -0.035, 0.035], 0.002900), ([0.007, -0.033, 0.027], 0.001867)]
# what sellers of class II tapes print [m, mm]: 3 m 0.9, 5 m 1.3, 8 m 1.9, 10 m 2.3
TAPES = [(3, 0.9), (5, 1.3), (8, 1.9), (10, 2.3)]


@pytest.mark.parametrize(("freedom", "doubted", "wrong"), NIST)
def test_chi_squared_as_nist_prints_it(freedom: int, doubted: float, wrong: float) -> None:
    assert chi2_beyond(doubted, freedom) == pytest.approx(0.05, abs=2e-5)
    assert chi2_beyond(wrong, freedom) == pytest.approx(0.001, abs=1e-6)


@pytest.mark.parametrize("freedom", range(1, 13))
def test_chi_squared_as_scipy_has_it(freedom: int) -> None:
    for value in (0.0, 0.3, 2.5, 9.0, 40.0):
        assert chi2_beyond(value, freedom) == pytest.approx(float(chi2.sf(value, freedom)), rel=1e-9, abs=1e-300)


def test_baarda_s_bound() -> None:
    """One length too many, off by 3.29 of its spreads: 0.1 %, where it is called wrong."""
    assert float(norm.isf(WRONG / 2)) == pytest.approx(3.29, abs=0.001)
    apart = 3.29 * np.sqrt(2.0)
    found = adjust(lambda x: np.array([x[0], x[0]]), np.array([0.0, apart]), np.ones(2), np.zeros(1))
    assert found.normalised == pytest.approx([-3.29, 3.29])
    assert found.chance == pytest.approx(WRONG, rel=0.01)


@pytest.mark.parametrize(("residuals", "squares"), LEVELS)
def test_a_level_circuit(residuals: list[float], squares: float) -> None:
    """An elevation is the mean of what each bench mark gives; each is off what the others say by n / (n - 1)."""
    measured = 100.0 - np.array(residuals)
    count = len(measured)
    found = adjust(lambda x: np.full(count, x[0]), measured, np.ones(count), np.array([90.0]))
    assert -found.residuals == pytest.approx(residuals, abs=5.1e-4)  # printed to a thousandth
    assert found.chi2 == pytest.approx(squares, abs=5e-6)
    assert found.redundancy == pytest.approx(np.full(count, 1 - 1 / count))
    assert found.off == pytest.approx(found.residuals * count / (count - 1))


@pytest.mark.parametrize(("metres", "error"), TAPES)
def test_tapes_of_class_two(metres: int, error: float) -> None:
    assert TAPE_MM + TAPE_PER_M * ceil(metres) == pytest.approx(error)


def test_the_floor_is_a_thin_plate_spline() -> None:
    rng = np.random.default_rng(11)
    places = rng.uniform(0, 3000, (9, 2))
    heights = rng.normal(0, 4, 9)
    asked = rng.uniform(0, 3000, (40, 2))
    levels = [((float(x), float(y)), float(h)) for (x, y), h in zip(places, heights, strict=True)]
    other = RBFInterpolator(places, heights, kernel="thin_plate_spline", degree=1)(asked)
    assert floor_heights(levels, asked) == pytest.approx(other, abs=1e-6)
