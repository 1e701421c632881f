"""How values, chances and demands are written for the maker."""

from __future__ import annotations

import math

from fitwright.checks.fit_chance import WORDS
from fitwright.mechanics.variation import Chance
from fitwright.units import Style

CODE = 3  # letters of a currency, ISO 4217
SURE = 0.9995  # a chance is never told as certain
FITS, WANTED = "fits", "fits as wanted"  # demands that there may be one of for each direction

# turned by less than this, the tube is not turned at all
TURN_RAD = math.radians(0.05)


def amount(value: float | None, unit: str, style: Style) -> str:
    """A value with its unit as the job writes it; empty where there is none.

    Lengths, forces, weights and stresses follow the job's unit; money has its hundredths; everything else keeps its own
    unit, to three figures.
    """
    if value is None:
        return ""
    if unit == "mm":
        return style.length(value)
    if unit == "N":
        return style.force(value)
    if unit == "currency":
        return f"{value:.2f}"
    if unit == "kg":
        return style.weight(value)
    if unit == "MPa":
        return style.stress(value)
    if len(unit) == CODE and unit.isupper():
        return f"{value:.2f} {unit}"
    figures = f"{value:.3g}" if abs(value) < 1000 else f"{value:.0f}"
    if unit in ("deg", "°"):
        return f"{value:.1f}°"
    return f"{figures} {unit}".strip()


def turned(angle: float, style: Style) -> str:
    """How far to turn the tube from where it lay for the first bend, by the shorter way.

    angle: of the bend's plane, right-handed looking the way the tube travels [rad]. To bring that plane into the
    machine's, the tube is turned the other way about its travel: clockwise for one who looks against it.

    >>> turned(math.radians(-90), Style.metric()), turned(math.radians(270.01), Style.metric())
    ('↺ 90.0°', '↺ 90.0°')
    """
    short = (angle + math.pi) % (2 * math.pi) - math.pi
    if abs(short) < TURN_RAD:
        return "0°"
    half = abs(abs(short) - math.pi) < TURN_RAD
    return f"{'' if half else '↻ ' if short > 0 else '↺ '}{style.angle(abs(short))}"


def fine(style: Style) -> Style:
    """The style for what is smaller than the step that lengths are printed to."""
    return style.fine()


def percent(chance: float) -> str:
    """A chance (0 to 1) as it is told: never quite certain.

    >>> percent(0.9537), percent(1.0), percent(0.0001)
    ('95.4 %', 'over 99.9 %', 'under 0.1 %')
    """
    if chance >= SURE:
        return "over 99.9 %"
    return "under 0.1 %" if chance < 1 - SURE else f"{100 * chance:.1f} %"


def demand(chance: Chance) -> str:
    """What is demanded of the piece, with the direction where there may be several."""
    words = WORDS[chance.name]
    return f"{words}, {chance.subject}" if chance.name in (FITS, WANTED) else words
