"""The least sum of squares, by damped Gauss-Newton steps on equations that are few enough to be kept whole."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]

MOST_STEPS = 200
FIRST_DAMPING = 1e-4
LEAST_DAMPING, MOST_DAMPING = 1e-12, 1e12
SMALL_GAIN = 1e-9
"""Part of the sum of squares, or of one spread squared, by which a step has to better it to go on."""
FOLLOWED = 1e-4


def least(misses: Callable[[Floats], Floats], rates: Callable[[Floats], Floats], row: Floats) -> Floats:
    """The row (n,) near a first one at which the sum of squares of misses (m,) is least; rates (m, n): how they change.

    Each unknown is measured by how much it has mattered so far, so that lengths and angles may stand side by side.
    Holds for misses that are smooth, of which a local least is wanted; what nothing depends on stays where it is.
    Source: Levenberg-Marquardt, damping by H. B. Nielsen, "Damping parameter in Marquardt's method", IMM-REP-1999-05,
    Technical University of Denmark, 1999; scaling by J. More, "The Levenberg-Marquardt algorithm", 1978 (both from
    memory).
    """
    here = misses(row)
    total, damping, growing = float(here @ here), FIRST_DAMPING, 2.0
    scale = np.zeros(len(row))
    for _ in range(MOST_STEPS):
        slope = rates(row)
        information, pull = slope.T @ slope, slope.T @ here
        scale = np.maximum(scale, np.sqrt(np.diag(information)))
        row, here, total, damping, growing, gained = _stepped(
            misses, row, here, total, (information, pull, np.where(scale > 0, scale, 1.0)), damping, growing
        )
        if gained <= SMALL_GAIN * max(total, 1.0):
            break
    return row


def _stepped(
    misses: Callable[[Floats], Floats],
    row: Floats,
    here: Floats,
    total: float,
    shape: tuple[Floats, Floats, Floats],
    damping: float,
    growing: float,
) -> tuple[Floats, Floats, float, float, float, float]:
    """One step that betters the total, more and more damped until one does; with what it gained, 0 when none does."""
    information, pull, scale = shape
    while damping < MOST_DAMPING:
        step = _solved(information / np.outer(scale, scale), -pull / scale, damping) / scale
        there = misses(row + step)
        after = float(there @ there) if np.isfinite(there).all() else np.inf
        foreseen = -float(step @ (2 * pull + information @ step))
        if after < total:
            followed = (total - after) / max(foreseen, 1e-300)
            damping = max(damping * max(1 / 3, 1 - (2 * min(followed, 2.0) - 1) ** 3), LEAST_DAMPING)
            return row + step, there, after, damping, 2.0, total - after
        if foreseen <= FOLLOWED * SMALL_GAIN * max(total, 1.0):
            break
        damping, growing = damping * growing, 2 * growing
    return row, here, total, damping, growing, 0.0


def _solved(information: Floats, pull: Floats, damping: float) -> Floats:
    from scipy.linalg import LinAlgError, cho_factor, cho_solve

    damped = information + damping * np.eye(len(pull))
    try:
        return np.asarray(cho_solve(cho_factor(damped, lower=True, check_finite=False), pull, check_finite=False))
    except LinAlgError:
        return np.asarray(np.linalg.lstsq(damped, pull, rcond=None)[0])
