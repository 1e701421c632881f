"""Measurements that overlap, adjusted by least squares, and how far each is off what all the others say."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from math import erfc, exp, gamma, sqrt

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Model = Callable[[Floats], Floats]

ROUNDS = 12
STEP = 1e-4  # mm, of the differences that stand for derivatives
STILL = 1e-6
UNCHECKED = 1e-6  # a redundancy number below this: nothing checks the measurement


@dataclass(frozen=True, eq=False)
class Adjusted:
    """Unknowns (u,), residuals (m,) measured less adjusted, redundancy numbers (m,), sum of squares of the normed
    residuals `chi2` with its degrees of freedom, and how far each measurement is off the others (m,) with the spread of
    that (m,), infinite where nothing checks it. covariance: of the unknowns (u, u).
    """

    unknowns: Floats
    residuals: Floats
    redundancy: Floats
    chi2: float
    freedom: int
    off: Floats
    off_spread: Floats
    covariance: Floats

    @property
    def normalised(self) -> Floats:
        """Residuals in their own standard deviations (m,); 0 where nothing checks the measurement."""
        return np.asarray(np.where(np.isfinite(self.off_spread), self.off / self.off_spread, 0.0))

    @property
    def chance(self) -> float:
        """How often careful measuring misses by as much or more."""
        return chi2_beyond(self.chi2, self.freedom)


def adjust(model: Model, measured: Floats, spreads: Floats, start: Floats) -> Adjusted:
    """Least squares for a model that gives (m,) values from unknowns (u,), from a start (u,).

    spreads: one standard deviation of each measurement (m,). Gauss and Newton with differences for derivatives.
    Holds for unknowns that the measurements determine: a matrix of full rank.
    Source: normal equations, redundancy numbers r = diag(I - A N^-1 A' W), w = v / (s sqrt(r)): W. Baarda, A testing
    procedure for use in geodetic networks, 1968; off = v / r is what the measurement differs from the value that all
    the others give it.

    >>> found = adjust(lambda x: np.array([x[0], x[0]]), np.array([10.0, 12.0]), np.ones(2), np.zeros(1))
    >>> float(found.unknowns[0]), found.off.round(9).tolist(), [round(w, 3) for w in found.normalised.tolist()]
    (11.0, [-2.0, 2.0], [-1.414, 1.414])
    """
    unknowns = start.astype(float)
    for _ in range(ROUNDS):
        slope = _slope(model, unknowns)
        step = np.linalg.lstsq(slope / spreads[:, None], (measured - model(unknowns)) / spreads, rcond=None)[0]
        unknowns = unknowns + step
        if float(np.abs(step).max()) < STILL:
            break
    residuals = measured - model(unknowns)
    orthogonal, triangle = np.linalg.qr(_slope(model, unknowns) / spreads[:, None])
    inverse = np.linalg.inv(triangle)
    redundancy = np.clip(1.0 - (orthogonal**2).sum(axis=1), 0.0, 1.0)
    checked = redundancy > UNCHECKED
    with np.errstate(divide="ignore", invalid="ignore"):
        off = np.where(checked, residuals / redundancy, 0.0)
        off_spread = np.where(checked, spreads / np.sqrt(redundancy), np.inf)
    chi2 = float(((residuals / spreads) ** 2).sum())
    freedom = len(measured) - len(start)
    return Adjusted(unknowns, residuals, redundancy, chi2, freedom, off, off_spread, inverse @ inverse.T)


def chi2_beyond(chi2: float, freedom: int) -> float:
    """The chance that a sum of squares of `freedom` standard normal numbers is `chi2` or more; 1 without freedom.

    Source: the regularised gamma function Q(freedom / 2, chi2 / 2) by its recurrence from Q(1/2, x) = erfc(sqrt x) and
    Q(1, x) = exp(-x), NIST Digital Library of Mathematical Functions 8.8.6 and 8.4.

    >>> round(chi2_beyond(3.841, 1), 4), round(chi2_beyond(5.991, 2), 4)
    (0.05, 0.05)
    """
    if freedom <= 0:
        return 1.0
    x, a = chi2 / 2, 0.5 if freedom % 2 else 1.0
    total = erfc(sqrt(x)) if freedom % 2 else exp(-x)
    while a < freedom / 2:
        total += x**a * exp(-x) / gamma(a + 1)
        a += 1.0
    return min(total, 1.0)


def _slope(model: Model, at: Floats) -> Floats:
    """Derivatives (m, u)."""
    steps = STEP * np.eye(len(at))
    return np.array([(model(at + step) - model(at - step)) / (2 * STEP) for step in steps]).T
