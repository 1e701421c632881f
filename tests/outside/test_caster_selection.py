"""Casters against makers' selection rules and statics.

Total over three for four casters, (E + Z) / (n - 1): selection rules of two caster makers. Four equal springs under an
eccentric load: W (1/4 +/- ex/2a +/- ey/2b). Force to climb a step, W sqrt(2Rh - h^2) / (R - h): statics.
"""

from __future__ import annotations

import numpy as np
import pytest

from fitwright.checks.climbing import Rolling, climb_ratio, push_to_climb, push_to_tip
from fitwright.checks.shares import by_number, one_lifted, springs

CORNERS = np.array([[0.0, 0], [30, 0], [30, 18], [0, 18]])


def test_divide_by_three() -> None:
    assert by_number(240, 4) == pytest.approx(80)


def test_four_springs() -> None:
    loads = springs(CORNERS, np.array([18.0, 7.0]), 240)
    assert loads == pytest.approx([61.33, 85.33, 58.67, 34.67], abs=0.01)


@pytest.mark.parametrize(("radius", "step", "force"), [(1.5, 0.25, 39.8), (2.5, 0.5, 45.0), (2.0, 0.25, 33.2)])
def test_force_to_climb_with_60_lb_on_the_wheel(radius: float, step: float, force: float) -> None:
    assert 60 * climb_ratio(radius, step) == pytest.approx(force, rel=1.5e-3)


def test_three_points_by_moments() -> None:
    """With (0, 18) lifted: (30, 18) takes 240 x 7 / 18, (0, 0) takes 240 x 12 / 30, (30, 0) the rest."""
    stances = one_lifted(CORNERS, np.array([18.0, 7.0]), 240)
    expected = [240 * 12 / 30, 240 - 240 * 12 / 30 - 240 * 7 / 18, 240 * 7 / 18, 0.0]
    assert any(np.allclose(stance, expected) for stance in stances)
    assert stances.min() >= 0


def test_climbing_pushed_at_axle_height_is_the_handbook_s_force_on_the_leading_wheels() -> None:
    rolling = Rolling(weight=100, base=500, ahead=200, radius=40, push_height=40)
    assert push_to_climb(rolling, 5) == pytest.approx(60 * climb_ratio(40, 5))
    assert push_to_tip(rolling) == float("inf")


def test_climbing_force_balances_by_moments() -> None:
    """Push, weight, the rear wheels' support and the step's reaction through the axle: all three sums are zero."""
    rolling, step = Rolling(weight=100, base=500, ahead=200, radius=40, push_height=900), 5.0
    push = push_to_climb(rolling, step)
    front = push / climb_ratio(40, step)
    rear = 100 - front
    assert push * (900 - 40) + rear * 500 == pytest.approx(100 * 200)
