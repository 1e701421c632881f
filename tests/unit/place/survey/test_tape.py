from __future__ import annotations

from math import hypot, sqrt

import pytest

from fitwright.place.survey.tape import USUAL, spread_of


def test_a_tape_is_worth_its_class_its_reading_and_its_setting() -> None:
    # class II over the second metre begun: 0.3 + 0.2 x 2; half a millimetre to read; 1 mm in the corner
    assert spread_of(1400.0) == pytest.approx(hypot(0.7 / sqrt(3), 0.5 / sqrt(3), 1.0))
    assert spread_of(1000.0) < spread_of(1001.0)


def test_what_is_said_counts() -> None:
    assert spread_of(5000.0, within=3.0) * USUAL == pytest.approx(3.0)
