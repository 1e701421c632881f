"""Fillet welds against AISC, Shigley, Blodgett and Faires.

Least leg: AISC 360-05 Table J2.4. Long welds: AISC 360-05 J2.2b.
Load per inch for E60, E70, E80: Shigley, Mechanical Engineering Design, Table 9-6 (after Blodgett).
Weld as a line: Blodgett, Design of Welded Structures, section 7.4. Eccentric C-shaped group: Shigley, Example 9-1.
Length for a load: Faires, Design of Machine Elements, problem 941.
"""

from __future__ import annotations

import numpy as np
import pytest

from fitwright.checks.fillets import THROAT, least_leg, long_weld_factor, throat_allowable, weld_capacity
from fitwright.checks.weld_line import around, weld_line, weld_stress
from fitwright.stock import RoundTube
from fitwright.units import INCH, PSI

KIP_PER_INCH = 1000 * PSI * INCH  # N/mm


@pytest.mark.parametrize(("thickness", "leg"), [(1 / 4, 3), (0.3, 5), (1 / 2, 5), (0.6, 6), (3 / 4, 6), (1.0, 8)])
def test_least_leg(thickness: float, leg: float) -> None:
    assert least_leg(thickness * INCH) == leg


def test_least_leg_need_not_exceed_the_thinner_part() -> None:
    assert least_leg(0.065 * INCH) == pytest.approx(0.065 * INCH)


TABLE_9_6 = {  # leg [in]: kip/in for E60, E70, E80
    1.0: (12.73, 14.85, 16.97),
    0.5: (6.37, 7.42, 8.48),
    0.375: (4.77, 5.57, 6.36),
    0.3125: (3.98, 4.64, 5.30),
    0.25: (3.18, 3.71, 4.24),
    0.1875: (2.39, 2.78, 3.18),
    0.125: (1.59, 1.86, 2.12),
    0.0625: (0.795, 0.93, 1.06),
}


@pytest.mark.parametrize("leg", TABLE_9_6)
def test_capacity_per_inch(leg: float) -> None:
    found = [weld_capacity(leg * INCH, ksi * 1000 * PSI) / KIP_PER_INCH for ksi in (60, 70, 80)]
    assert found == pytest.approx(TABLE_9_6[leg], abs=0.01)


def test_per_sixteenth() -> None:
    assert weld_capacity(INCH / 16, 70e3 * PSI) / KIP_PER_INCH == pytest.approx(0.928, abs=0.001)


@pytest.mark.parametrize(("ratio", "factor"), [(100, 1.0), (150, 0.9), (300, 0.6), (400, 180 / 400)])
def test_long_welds(ratio: float, factor: float) -> None:
    assert long_weld_factor(ratio, 1.0) == pytest.approx(factor)


def test_rectangle_and_circle_as_lines() -> None:
    rectangle = weld_line(np.array([[0.0, 0], [2, 0], [2, 3], [0, 3]]))
    assert rectangle.length == pytest.approx(10)
    assert rectangle.s_u == pytest.approx(2 * 3 + 3**2 / 3)
    assert rectangle.j == pytest.approx((2 + 3) ** 3 / 6)
    circle = around(RoundTube(1.25, 0.065))
    assert circle.length == pytest.approx(3.9270, rel=5e-4)
    assert circle.s_u == pytest.approx(1.2272, rel=5e-4)
    assert circle.j == pytest.approx(1.5340, rel=5e-4)


def test_c_shaped_group_under_an_eccentric_load() -> None:
    """25 kN on a plate, 100 mm beyond the back of a C 56 by 190 mm, legs of 6 mm."""
    line = weld_line(np.array([[56.0, 0], [0, 0], [0, 190], [56, 190]]), closed=False)
    leg = 6.0
    assert line.centroid[0] == pytest.approx(10.4, abs=0.05)
    assert THROAT * leg * line.length == pytest.approx(1281, rel=2e-3)
    assert THROAT * leg * line.j == pytest.approx(7.07e6, rel=2e-3)
    load = np.array([0.0, -25e3, 0.0, 0.0, 0.0, 0.0])
    at = np.array([-100.0, 95.0])
    assert float(weld_stress(load, line, leg, at)) == pytest.approx(43.9, rel=0.01)


def test_length_for_ten_kip() -> None:
    """3/8 in fillets on two sides: F = 2 s L b cos 45."""
    for stress, length in ((16, 1.18), (14, 1.35), (13.6, 1.39)):
        assert 10 / (2 * stress * THROAT * 0.375) == pytest.approx(length, abs=0.01)
    assert throat_allowable(70.0) == pytest.approx(21.0)
