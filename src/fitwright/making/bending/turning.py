"""How far the tube is turned between two bends, as bend sheets and steps tell it."""

from __future__ import annotations

import math

from fitwright.units import Style

TURN_RAD = math.radians(0.05)
"""Turned by less than this, the tube is not turned at all."""
UNTURNED = "0°"


def turned(angle: float, style: Style) -> str:
    """How far to turn the tube from where it lay for the first bend, by the shorter way.

    angle: of the bend's plane, right-handed looking the way the tube travels [rad]. To bring that plane into the
    machine's, the tube is turned the other way about its travel: clockwise for one who looks against it.

    >>> turned(math.radians(-90), Style.metric()), turned(math.radians(270.01), Style.metric())
    ('↺ 90.0°', '↺ 90.0°')
    """
    short = (angle + math.pi) % (2 * math.pi) - math.pi
    if abs(short) < TURN_RAD:
        return UNTURNED
    half = abs(abs(short) - math.pi) < TURN_RAD
    return f"{'' if half else '↻ ' if short > 0 else '↺ '}{style.angle(abs(short))}"
