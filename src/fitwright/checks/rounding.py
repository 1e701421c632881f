"""Rounding toward the safe side for advice: a length that cures must not be rounded down."""

from __future__ import annotations

import math

from fitwright.units import POUND, POUND_FORCE, Style


def up(style: Style, mm: float) -> float:
    """The next printed step at or above a length [mm].

    >>> up(Style.metric(), 3.01)
    3.5
    """
    return math.ceil(mm / style.step_mm - 1e-9) * style.step_mm


def down(style: Style, mm: float) -> float:
    """The next printed step at or below a length [mm].

    >>> down(Style.metric(), 3.49)
    3.0
    """
    return math.floor(mm / style.step_mm + 1e-9) * style.step_mm


def up_mass(style: Style, kg: float) -> float:
    """The next whole pound or half kilogram at or above a mass [kg].

    >>> up_mass(Style.metric(), 3.2)
    3.5
    """
    step = POUND if style.unit == "inch" else 0.5
    return math.ceil(kg / step - 1e-9) * step


def up_force(style: Style, newtons: float) -> float:
    """The next whole pound or ten newtons at or above a force [N].

    >>> up_force(Style.metric(), 321.0)
    330.0
    """
    step = POUND_FORCE if style.unit == "inch" else 10.0
    return math.ceil(newtons / step - 1e-9) * step
