"""Numbers as the report writes them: rounded, and null where there is none."""

from __future__ import annotations

import math
from typing import Any

import numpy as np

Json = dict[str, Any]
DIGITS = 4


def number(value: float | None) -> float | None:
    """A number, null where it is missing or not finite."""
    return None if value is None or not math.isfinite(value) else round(float(value), DIGITS) + 0.0


def vector(values: Any) -> list[float]:
    """A list of numbers."""
    return [round(float(x), DIGITS) + 0.0 for x in np.asarray(values).ravel()]


def degrees(angle: float) -> float:
    """An angle [rad] in degrees."""
    return round(math.degrees(angle), DIGITS)
