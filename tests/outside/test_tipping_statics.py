"""Tip-over against published criteria and plain statics.

Angle atan(x / h), push W b / H and half base h tan(angle): statics, as in any text (Hibbeler, Statics, friction and
tipping); worked with a calculator. 10 degree plane for equipment over 11 kg (24 lb): UL tilt test, as listed in an
instrument manual. Scope of 16 CFR 1261 (ASTM F2057-23): CPSC guidance pages.
"""

from __future__ import annotations

import numpy as np
import pytest

from fitwright.checks.carried import bits
from fitwright.checks.standing import Contact
from fitwright.checks.tipping import TILT_DEG
from fitwright.checks.tipping_moment import Balance, balance, tip_moments, tip_slopes, widening
from fitwright.units import GRAVITY, INCH, POUND, POUND_FORCE

RIGHT = np.array([[1.0, 0.0]])


def standing(half_base: float, height: float, pounds: float) -> Balance:
    """A weight [lb] `half_base` [in] from its tipping edge and `height` [in] up, seen toward +x."""
    feet = [
        Contact(str(k), np.array([x, y, 0.0])) for k, (x, y) in enumerate(((-40, -40), (-40, 40), (0, -40), (0, 40)))
    ]
    moved = [Contact(c.name, c.point * INCH) for c in feet]
    return balance(moved, pounds * POUND, np.array([-half_base, 0.0, height]) * INCH, bits(()), RIGHT)


@pytest.mark.parametrize(("x", "h", "degrees"), [(8, 30, 14.93), (10, 34, 16.39), (7, 36, 11.00)])
def test_tip_angle(x: float, h: float, degrees: float) -> None:
    slopes, _ = tip_slopes(standing(x, h, 60))
    assert float(np.degrees(np.arctan(slopes[0]))) == pytest.approx(degrees, abs=0.01)


@pytest.mark.parametrize(("degrees", "half_base"), [(10, 5.995), (5, 2.975)])
def test_half_base_for_an_angle_at_34_in(degrees: float, half_base: float) -> None:
    more = widening(standing(1.0, 34, 60), float(np.tan(np.radians(degrees))), 0.0, 1.0)
    assert float(more[0]) / INCH + 1.0 == pytest.approx(half_base, abs=0.001)


@pytest.mark.parametrize(("pounds", "b", "h", "push"), [(60, 8, 34, 14.1), (45, 7, 36, 8.75), (100, 10, 30, 33.3)])
def test_push_that_tips(pounds: float, b: float, h: float, push: float) -> None:
    moments, _ = tip_moments(standing(b, 30, pounds))
    assert float(moments[0]) / (h * INCH) / POUND_FORCE == pytest.approx(push, abs=0.05)


def test_ten_degree_plane() -> None:
    assert TILT_DEG == 10.0


def test_a_swivel_caster_takes_its_lead_off_the_base() -> None:
    feet = [
        Contact(str(k), np.array([x, y, 0.0]), 19.0)
        for k, (x, y) in enumerate(((-9e2, -9e2), (-9e2, 9e2), (0, -9e2), (0, 9e2)))
    ]
    state = balance(feet, 10.0, np.array([-200.0, 0.0, 500.0]), bits(()), RIGHT)
    assert float(tip_moments(state)[0][0]) == pytest.approx(10 * GRAVITY * (200 - 19))
