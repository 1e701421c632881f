from __future__ import annotations

from math import hypot

import numpy as np
import pytest

from fitwright.job.model import Measured, Opening, PlanSurvey
from fitwright.place.survey.outline import outline, without

# a quadrilateral that is nowhere square: front left, front right, back left, back right
CORNERS = np.array([[0.0, 0.0], [1200.0, 0.0], [12.0, 700.0], [1190.0, 690.0]])


def lengths(corners: np.ndarray[tuple[int, ...], np.dtype[np.float64]] = CORNERS) -> dict[str, float]:
    left, right, back_left, back_right = corners
    return {
        "front": hypot(*(right - left)),
        "back": hypot(*(back_right - back_left)),
        "left": hypot(*(back_left - left)),
        "right": hypot(*(back_right - right)),
        "front left to back right": hypot(*(back_right - left)),
        "front right to back left": hypot(*(back_left - right)),
    }


def test_exact_lengths_give_the_corners_back() -> None:
    found = outline(Opening(plan=PlanSurvey(lengths())), None)
    assert found.corners == pytest.approx(CORNERS, abs=1e-6)
    assert found.adjusted.freedom == 1
    assert found.adjusted.chi2 == pytest.approx(0.0, abs=1e-9)


def test_one_diagonal_is_enough_for_the_corners() -> None:
    some = {name: length for name, length in lengths().items() if name != "front right to back left"}
    assert outline(Opening(plan=PlanSurvey(some)), None).corners == pytest.approx(CORNERS, abs=1e-6)


def test_a_width_at_the_same_height_checks_the_front() -> None:
    opening = Opening(plan=PlanSurvey(lengths()), measures=(Measured("width", 0.0, 1203.0),))
    found = outline(opening, None)
    assert found.adjusted.freedom == 2
    assert 1200.0 < found.corners[1, 0] < 1203.0


def test_a_width_higher_up_does_not() -> None:
    opening = Opening(plan=PlanSurvey(lengths()), measures=(Measured("width", 900.0, 1203.0),))
    assert outline(opening, None).adjusted.freedom == 1


@pytest.mark.parametrize("name", lengths())
def test_what_the_others_say_of_a_wrong_length(name: str) -> None:
    wrong = {**lengths(), name: lengths()[name] + 60.0}
    assert without(outline(Opening(plan=PlanSurvey(wrong)), None), name) == pytest.approx(lengths()[name], abs=3.0)


def test_nudged_corners_carry_the_spread_of_the_front() -> None:
    """Errors by themselves, each one standard deviation: their squares add up to the variance of the front corner."""
    found = outline(Opening(plan=PlanSurvey(lengths())), 2.0)
    squares = sum((nudged[1, 0] - found.corners[1, 0]) ** 2 for nudged in found.nudged)
    assert squares == pytest.approx(found.adjusted.covariance[0, 0])
    assert squares**0.5 < 2.0 / 1.96
