"""Spreads of the shop's errors from its readings."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]

PRIOR_WEIGHT = 8.0
"""What a default is worth against readings, in readings (common practice: a default is trusted like a small sample)."""
GRID, REACH = 200, 8.0
SHARE = 0.9


@dataclass(frozen=True)
class SpreadLearnt:
    """One standard deviation of an error: learnt, its 90 % range, over the default, and from how many readings."""

    value: float
    low: float
    high: float
    factor: float
    count: int

    @property
    def basis(self) -> str:
        """Where it comes from."""
        return f"{self.count} reading{'s' if self.count != 1 else ''} of this shop, against the default"


def spread_from(errors: Sequence[float], precisions: Sequence[float], usual: float) -> SpreadLearnt:
    """The spread of an error from readings of it: got less asked, each with how precisely it was read.

    usual: the default spread, in the same unit. With no readings it is the default.

    Holds for normal errors about what is asked for; what the shop is off on average counts as spread.
    Source: scaled inverse chi-square for the variance of a normal with known mean, Gelman and others, Bayesian Data
    Analysis, 3rd edition, 2.6 (from memory); where readings are imprecise, their variance is added and the posterior
    summed on a grid.

    >>> round(spread_from([], [], 0.5).value, 3)
    0.5
    """
    seen, read = np.array(errors, dtype=float), np.array(precisions, dtype=float)
    apart = float(np.sqrt(np.mean(seen**2))) if len(seen) else usual
    grid = np.geomspace(usual / REACH, max(usual, apart) * REACH, GRID)
    weights = _posterior(grid, seen, read, usual)
    value = math.sqrt(float(weights @ grid**2)) / _bias(usual, len(seen))
    gathered = np.cumsum(weights)
    low, high = (float(np.interp(q, gathered, grid)) for q in ((1 - SHARE) / 2, (1 + SHARE) / 2))
    return SpreadLearnt(value, low, high, value / usual, len(seen))


def _posterior(grid: Floats, seen: Floats, read: Floats, usual: float) -> Floats:
    """Weights (g,) of each spread of the grid, which is even in the logarithm."""
    variance = grid[:, None] ** 2 + read[None, :] ** 2
    logs = -0.5 * np.sum(np.log(variance) + seen[None, :] ** 2 / variance, axis=1)
    logs += -PRIOR_WEIGHT * np.log(grid) - 0.5 * PRIOR_WEIGHT * usual**2 / grid**2
    weights: Floats = np.exp(logs - logs.max())
    weights /= weights.sum()
    return weights


def _bias(usual: float, count: int) -> float:
    """The mean of a scaled inverse chi-square is weight / (weight - 2) times its scale: the default stays itself."""
    weight = PRIOR_WEIGHT + count
    return math.sqrt(weight / (weight - 2))
