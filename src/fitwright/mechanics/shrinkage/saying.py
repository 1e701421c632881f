"""Movements in words."""

from __future__ import annotations

from fitwright.mechanics.shrinkage.measures import Measure
from fitwright.mechanics.shrinkage.spread import Spread
from fitwright.units import INCH, Style

LITTLE_MM = 0.05
"""Less than this is not worth a word."""


def said(measure: Measure, change: Spread, style: Style | None = None) -> str:
    """The change of a measure in words, as a range; both ways where even the sign is not sure."""
    more, less = (measure.more, measure.less) if change.mean > 0 else (measure.less, measure.more)
    if measure.kind == "rock":
        return f"{measure.subject} {more} by up to {in_style(change.most, style)}"
    low, high = sorted((abs(change.low), abs(change.high)))
    if change.low * change.high < 0:
        if low < LITTLE_MM:
            return f"{measure.subject} {more} by up to {in_style(high, style)}"
        return f"{measure.subject} {more} by up to {in_style(high, style)}, or {less} by up to {in_style(low, style)}"
    return f"{measure.subject} {more} by {in_style(low, style, unit=False)} to {in_style(high, style)}"


def in_style(mm: float, style: Style | None, *, unit: bool = True) -> str:
    """A small length: tenths of a millimetre or hundredths of an inch, a digit more for what would print as nothing."""
    inch = style is not None and style.unit == "inch"
    value, digits = (mm / INCH, 2) if inch else (mm, 1)
    text = f"{value:.{digits + (0 < abs(value) < 10**-digits)}f}"
    return text + (" in" if inch else " mm") * unit
