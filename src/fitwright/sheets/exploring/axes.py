"""Axes with round numbers on them."""

from __future__ import annotations

import math
from dataclasses import dataclass

STEPS = (1.0, 2.0, 2.5, 5.0, 10.0)
TICKS = 6
ROOM = 0.06


@dataclass(frozen=True)
class Axis:
    """From `low` to `high`, drawn from `start` to `end`; ticks at round numbers."""

    low: float
    high: float
    start: float
    end: float
    ticks: tuple[float, ...]

    def at(self, value: float) -> float:
        """Where a value is drawn."""
        return self.start + (value - self.low) / (self.high - self.low) * (self.end - self.start)


def axis_for(values: list[float], start: float, end: float, most: int = TICKS) -> Axis:
    """An axis that has all values on it, with a little room at both ends, and at most about so many ticks.

    >>> axis_for([10.0, 52.0], 0, 100).ticks
    (10.0, 20.0, 30.0, 40.0, 50.0)
    """
    low, high = min(values), max(values)
    span = (high - low) or max(abs(high) * 0.2, 1.0)
    low, high = low - ROOM * span, high + ROOM * span
    step = _step((high - low) / max(most, 2))
    first = math.ceil(low / step - 1e-9)
    ticks = tuple(round(k * step, 10) for k in range(first, math.floor(high / step + 1e-9) + 1))
    return Axis(low, high, start, end, ticks)


def _step(rough: float) -> float:
    size = 10 ** math.floor(math.log10(rough))
    return float(next(step for step in STEPS if step * size >= rough - 1e-12) * size)
