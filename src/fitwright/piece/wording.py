"""Messages whose lengths are told in the job's own unit."""

from __future__ import annotations

from fractions import Fraction
from typing import Self

import numpy as np
from numpy.typing import NDArray

from fitwright.errors import FitwrightError
from fitwright.units import Style

Vector = NDArray[np.float64]
Told = float | str | Vector

PLAIN = Style.metric(Fraction(1, 10))


class ToldError(FitwrightError, ValueError):
    """Something wrong with the parts as drawn; text: with {names} for the lengths [mm], points (3,) [mm] and words.

    Printed plainly it is in millimetres; `told` prints it in the unit of a job.
    """

    def __init__(self, text: str, **values: Told) -> None:
        self.text, self.values = text, values
        super().__init__(self.told(PLAIN))

    def told(self, style: Style) -> str:
        """The message with its lengths and points in the style's unit."""
        return self.text.format(**{name: _said(value, style) for name, value in self.values.items()})

    def worded(self, style: Style) -> Self:
        """The same, printed plainly in the style's unit from now on."""
        self.args = (self.told(style),)
        return self


def place(point: Vector, style: Style) -> str:
    """A point (3,) [mm] as `(9 3/8, 0, 12) in` or `(238.0, 0.0, 12.0) mm`."""
    unit = "in" if style.unit == "inch" else style.unit
    return f"({', '.join(style.bare(float(x) + 0.0) for x in np.round(point, 6))}) {unit}"


def _said(value: Told, style: Style) -> str:
    if isinstance(value, str):
        return value
    if isinstance(value, np.ndarray):
        return place(value, style)
    if value > 0 and style.round_length(value) == 0:
        return f"less than {style.length(style.step_mm)}"
    return style.length(float(value))
