"""The revised NIOSH lifting equation's multipliers, and HSE's guide for teams.

Multipliers as tabled by the Canadian Centre for Occupational Health and Safety, "NIOSH Lifting Equation: Calculating
Recommended Weight Limit", after T. R. Waters, V. Putz-Anderson and A. Garg, Applications manual for the revised NIOSH
lifting equation, DHHS (NIOSH) 94-110 (1994, revised 2021): printed to two figures. Team: HSE L23, Manual handling, as
quoted in its guidance: two thirds of the sum for two, a half for three; Network Rail's worked figure: 20 kg each, 26.6
kg for two.
"""

from __future__ import annotations

import numpy as np
import pytest

from fitwright.place.route.lifting import GUIDE_KG, TEAM_SHARE, people_for, person_load, recommended_limit

PRINTED = 0.006  # two figures
LOAD = 23.0


@pytest.mark.parametrize(("before", "multiplier"), [(250, 1.00), (300, 0.83), (400, 0.63), (500, 0.50), (600, 0.42)])
def test_horizontal(before: float, multiplier: float) -> None:
    assert recommended_limit(before, 750, 250) / LOAD == pytest.approx(multiplier, abs=PRINTED)


@pytest.mark.parametrize(
    ("high", "multiplier"), [(0, 0.78), (300, 0.87), (500, 0.93), (700, 0.99), (1000, 0.93), (1500, 0.78)]
)
def test_vertical(high: float, multiplier: float) -> None:
    coupling = 0.95 if high < 750 else 1.0
    assert recommended_limit(250, high, 250) / coupling / LOAD == pytest.approx(multiplier, abs=PRINTED)


@pytest.mark.parametrize(("raised", "multiplier"), [(250, 1.00), (400, 0.93), (550, 0.90), (1000, 0.87), (1450, 0.85)])
def test_distance(raised: float, multiplier: float) -> None:
    assert recommended_limit(250, 750, raised) / LOAD == pytest.approx(multiplier, abs=PRINTED)


@pytest.mark.parametrize(("degrees", "multiplier"), [(90, 0.71), (60, 0.81), (45, 0.86), (30, 0.90), (0, 1.00)])
def test_asymmetry(degrees: float, multiplier: float) -> None:
    assert recommended_limit(250, 750, 250, np.radians(degrees)) / LOAD == pytest.approx(multiplier, abs=PRINTED)


def test_beyond_reach_is_nothing() -> None:
    assert recommended_limit(640, 750, 250) == recommended_limit(250, 1800, 250) == 0.0


def test_a_team_of_two_lifts_a_third_more_than_one() -> None:
    assert 2 * TEAM_SHARE[2] * 20 == pytest.approx(26.6, abs=0.1)
    assert people_for(2 * TEAM_SHARE[2] * GUIDE_KG, 23.0) == 2
    assert people_for(2 * TEAM_SHARE[2] * GUIDE_KG + 0.1, 23.0) == 3


def test_the_heavier_end_decides() -> None:
    assert person_load(30, 2, 0.7) == pytest.approx(21)
    assert people_for(30, 20, 0.7) == 3
