"""How a value of a finding is written for the maker."""

from __future__ import annotations

from fitwright.units import Style


def amount(value: float | None, unit: str, style: Style) -> str:
    """A value with its unit as the job writes it; empty where there is none.

    Lengths follow the job's unit; everything else keeps its own, to three figures.
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
    figures = f"{value:.3g}" if abs(value) < 1000 else f"{value:.0f}"
    if unit in ("deg", "°"):
        return f"{value:.1f}°"
    return f"{figures} {unit}".strip()
