"""Where the errors of making probably are, given what was read: a Gaussian update, iterated where turns are large."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from fitwright.mechanics.model import Floats
from fitwright.truing.functional import Functional
from fitwright.truing.prior import Prior

ROUNDS = 8
SETTLED = 1e-6
UNKNOWN_MM = 1e4
"""Spread of what nobody knows, such as the plane from which heights are taken: as good as none at all."""


@dataclass(frozen=True, eq=False)
class Estimate:
    """Errors given r readings; s sources.

    mean: (s,) of the sources; covariance: (s, s). standing: (r,) each reading less what it would be by the others, in
    standard deviations of that difference. by_others, doubt: (r,) what the others make of it, and one deviation of it
    with the reading's own precision.
    """

    prior: Prior
    mean: Floats
    covariance: Floats
    standing: Floats
    by_others: Floats
    doubt: Floats

    @cached_property
    def errors(self) -> Floats:
        """(e,) elementary errors, as they probably are."""
        return np.asarray(self.prior.mix @ self.mean)

    @cached_property
    def root(self) -> Floats:
        """(e, s) elementary errors of independent standard normal numbers, about `errors`."""
        values, ways = np.linalg.eigh(self.covariance)
        return np.asarray(self.prior.mix @ (ways * np.sqrt(np.maximum(values, 0.0))))

    def spread(self, row: Floats) -> float:
        """One standard deviation of a linear form (e,) of the elementary errors."""
        return float(np.linalg.norm(row @ self.root))


def estimate(prior: Prior, functionals: Sequence[Functional], values: Floats, precision: Floats) -> Estimate:
    """The errors given readings of values (r,) with one standard deviation precision (r,) each.

    Full geometry is taken to its first order about the mean, again and again until that stays (iterated Kalman update).
    Holds for normal errors and readings that do not depend on one another.
    Source: B. M. Bell, F. W. Cathey, The iterated Kalman filter update as a Gauss-Newton method, IEEE Trans. Automatic
    Control 38 (1993) 294-297 (from memory); leave-one-out residuals from the inverse of the innovations' covariance,
    C. E. Rasmussen, C. K. I. Williams, Gaussian Processes for Machine Learning (2006), equations 5.10 to 5.12.
    """
    scale = prior.spreads
    mean = np.zeros(len(scale))
    outer = _unknowns(functionals)
    for _ in range(ROUNDS):
        errors = prior.mix @ mean
        slopes = np.array([f.slope(errors) for f in functionals]).reshape(-1, len(errors)) @ prior.mix * scale
        read = np.array([f.value(errors) for f in functionals])
        off = values - read + slopes @ (mean / scale_of(scale))
        whole = slopes @ slopes.T + outer + np.diag(precision**2)
        inverse = np.linalg.inv(whole)
        new = scale * (slopes.T @ (inverse @ off))
        settled = float(np.max(np.abs(new - mean) / scale_of(scale), initial=0.0)) < SETTLED
        mean = new
        if settled:
            break
    spread = scale[:, None] * (np.eye(len(scale)) - slopes.T @ inverse @ slopes) * scale
    diagonal = np.diag(inverse)
    return Estimate(
        prior,
        mean,
        spread,
        (inverse @ off) / np.sqrt(diagonal),
        values - (inverse @ off) / diagonal,
        1 / np.sqrt(diagonal),
    )


def scale_of(spreads: Floats) -> Floats:
    """(s,) spreads to divide by: those that are nothing count as one."""
    return np.where(spreads > 0, spreads, 1.0)


def unread(prior: Prior) -> Estimate:
    """What is believed without a reading."""
    nothing = np.zeros(0)
    return Estimate(prior, np.zeros(len(prior.spreads)), np.diag(prior.spreads**2), nothing, nothing, nothing)


def _unknowns(functionals: Sequence[Functional]) -> Floats:
    """(r, r) covariance of readings from what nobody knows."""
    names = list(dict.fromkeys(name for f in functionals for name in f.unknown))
    weights = np.array([[f.unknown.get(name, 0.0) for name in names] for f in functionals]).reshape(
        len(functionals), -1
    )
    return np.asarray(UNKNOWN_MM**2 * weights @ weights.T)
