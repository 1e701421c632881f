"""Messages in the maker's unit."""

from __future__ import annotations

from fractions import Fraction

import numpy as np

from fitwright.piece.wording import ToldError, place
from fitwright.units import Style


def test_lengths_points_and_words() -> None:
    error = ToldError("{name} is {gap} off at {point}", name="rail {1}", gap=12.7, point=np.array([25.4, 0.0, -12.7]))
    assert str(error) == "rail {1} is 12.7 mm off at (25.4, 0.0, -12.7) mm"
    assert error.told(Style.inch()) == 'rail {1} is 1/2" off at (1, 0, -1/2) in'


def test_a_little_is_not_nothing() -> None:
    error = ToldError("{gap}", gap=0.5)
    assert error.told(Style.inch(Fraction(1, 16))) == '1/64+"'
    assert ToldError("{gap}", gap=0.1).told(Style.metric()) == "less than 0.5 mm"
    assert ToldError("{gap}", gap=0.0).told(Style.inch()) == '0"'


def test_noise_does_not_become_a_minus() -> None:
    assert place(np.array([-1e-14, 0.04, 5.0]), Style.metric(Fraction(1, 10))) == "(0.0, 0.0, 5.0) mm"
