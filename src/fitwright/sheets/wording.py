"""How values, chances and demands are written for the maker."""

from __future__ import annotations

from fitwright.checks.fit_chance import WORDS
from fitwright.mechanics.variation import Chance
from fitwright.units import Style

CODE = 3  # letters of a currency, ISO 4217
SURE = 0.9995  # a chance is never told as certain
FITS, WANTED = "fits", "fits as wanted"  # demands that there may be one of for each direction


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
