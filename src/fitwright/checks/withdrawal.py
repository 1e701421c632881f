"""What holds a screw or lag in wood: withdrawal, by the equations of the NDS."""

from __future__ import annotations

from fitwright.units import INCH, POUND_FORCE

PER_INCH = POUND_FORCE / INCH  # N/mm in a pound per inch


def screw_withdrawal(gravity: float, diameter: float) -> float:
    """Reference withdrawal of a wood screw per length of thread in side grain [N/mm], diameter [mm].

    Holds for cut thread in seasoned wood, not in end grain. Source: NDS 2018 12.2-2, W = 2850 G^2 D.

    >>> round(screw_withdrawal(0.42, 0.164 * 25.4) / PER_INCH, 1)
    82.4
    """
    return 2850 * gravity**2 * (diameter / INCH) * PER_INCH


def lag_withdrawal(gravity: float, diameter: float) -> float:
    """Reference withdrawal of a lag screw per length of thread in side grain [N/mm], diameter [mm].

    Source: NDS 2018 12.2-1, W = 1800 G^1.5 D^0.75.

    >>> round(lag_withdrawal(0.50, 0.25 * 25.4) / PER_INCH)
    225
    """
    return float(1800 * gravity**1.5 * (diameter / INCH) ** 0.75 * PER_INCH)


def nail_withdrawal(gravity: float, diameter: float) -> float:
    """Reference withdrawal of a nail per length in side grain [N/mm], diameter [mm].

    Source: NDS 2018 12.2-3, W = 1380 G^2.5 D.

    >>> round(nail_withdrawal(0.50, 0.131 * 25.4) / PER_INCH, 2)
    31.96
    """
    return float(1380 * gravity**2.5 * (diameter / INCH) * PER_INCH)
