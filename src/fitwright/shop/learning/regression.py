"""Bayesian linear regression with a prior for each coefficient and noise that is itself learnt."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from fitwright.shop.learning.errors import LearningError

Floats = NDArray[np.float64]

GRID = 32
REACH = 12.0
"""The noise is first looked for from this many times less than the prior says to as much more than the larger of what
the prior and the data say; then where it is found, more closely, as often as it takes."""
CLOSER, SIGMAS = 8, 5.5
HALVINGS = 60


@dataclass(frozen=True)
class Noise:
    """What is known of the noise beforehand: its deviation, and how many measurements that knowledge is worth.

    As an inverse-gamma distribution of the variance, with shape weight / 2 and scale weight deviation^2 / 2.
    """

    deviation: float
    weight: float = 4.0


@dataclass(frozen=True, eq=False)
class Mixture:
    """A distribution of one number: normal for each of the noises (g,) that may be, with their weights."""

    means: Floats
    deviations: Floats
    weights: Floats

    @property
    def mean(self) -> float:
        """Its mean."""
        return float(self.weights @ self.means)

    @property
    def deviation(self) -> float:
        """Its standard deviation."""
        return math.sqrt(float(self.weights @ (self.deviations**2 + (self.means - self.mean) ** 2)))

    def below(self, value: float) -> float:
        """The chance of less than a value."""
        z = (value - self.means) / (self.deviations * math.sqrt(2))
        return float(self.weights @ np.array([0.5 + 0.5 * math.erf(one) for one in z.tolist()]))

    def quantile(self, chance: float) -> float:
        """The value that is exceeded with a chance of 1 - `chance`; by bisection."""
        far = 40 * float(self.deviations.max()) + float(np.ptp(self.means))
        low, high = self.mean - far, self.mean + far
        for _ in range(HALVINGS):
            middle = (low + high) / 2
            low, high = (middle, high) if self.below(middle) < chance else (low, middle)
        return (low + high) / 2

    def interval(self, share: float = 0.9) -> tuple[float, float]:
        """The middle interval that holds a share of it."""
        return self.quantile((1 - share) / 2), self.quantile((1 + share) / 2)


@dataclass(frozen=True, eq=False)
class Regression:
    """What is known of the coefficients (p,) after the data.

    prior (p,) and scale (p,): means and deviations before. axes (p, p) and strengths (p,): principal directions of the
    data in units of the prior, and how much they say of each; sums (p,): what they say. deviations (g,) and weights
    (g,): noises that may be, and how likely each is. count: of measurements.
    """

    prior: Floats
    scale: Floats
    axes: Floats
    strengths: Floats
    sums: Floats
    deviations: Floats
    weights: Floats
    count: int

    def value(self, row: Floats) -> Mixture:
        """What row (p,) times the coefficients is, without noise."""
        return self._mixture(row, 0.0)

    def next(self, row: Floats) -> Mixture:
        """What the next measurement at row (p,) will be, noise included."""
        return self._mixture(row, 1.0)

    @cached_property
    def noise(self) -> float:
        """The deviation of the noise: root of its mean square."""
        return math.sqrt(float(self.weights @ self.deviations**2))

    def _mixture(self, row: Floats, noise: float) -> Mixture:
        along = self.axes.T @ (self.scale * row)
        squares = self.deviations[:, None] ** 2
        kept = 1 / (1 + self.strengths / squares)
        means = float(row @ self.prior) + (kept * self.sums / squares) @ along
        return Mixture(means, np.sqrt(kept @ along**2 + noise * self.deviations**2), self.weights)


def regress(design: Floats, seen: Floats, prior: Floats, scale: Floats, noise: Noise) -> Regression:
    """Learn coefficients from measurements seen (n,) = design (n, p) times coefficients plus noise.

    prior, scale: (p,) mean and standard deviation of each coefficient beforehand, independent of each other and of the
    noise. n may be 0: then it is the prior.

    Raises LearningError for shapes that do not fit, and values that are no numbers or scales and noises not above 0.
    Holds for normal noise, alike in all measurements and independent. Given the noise everything is normal and exact;
    its variance, inverse-gamma beforehand, is integrated over on a grid.
    Source: Bishop, Pattern Recognition and Machine Learning (2006), 3.3, for known noise; Gelman and others, Bayesian
    Data Analysis, 3rd edition, 14.8 and 10.1, for informative priors and grids (from memory).

    >>> known = regress(np.ones((4, 1)), np.array([1.0, 3.0, 2.0, 2.0]), np.zeros(1), np.full(1, 1e3), Noise(1.0, 1e9))
    >>> round(known.value(np.ones(1)).mean, 3), round(known.value(np.ones(1)).deviation, 3)
    (2.0, 0.5)
    """
    _check(design, seen, prior, scale, noise)
    white = design * scale
    rest = seen - design @ prior
    strengths, axes = np.linalg.eigh(white.T @ white)
    strengths = np.maximum(strengths, 0.0)
    sums = axes.T @ (white.T @ rest)
    deviations, weights = _noises(strengths, sums, rest, noise)
    return Regression(prior, scale, axes, strengths, sums, deviations, weights, len(seen))


def _check(design: Floats, seen: Floats, prior: Floats, scale: Floats, noise: Noise) -> None:
    if design.shape != (len(seen), len(prior)) or scale.shape != prior.shape:
        raise LearningError(f"a design of {design.shape} does not go with {len(seen)} values and {len(prior)} priors")
    if not all(np.isfinite(one).all() for one in (design, seen, prior, scale)):
        raise LearningError("there are values that are no numbers among the measurements: leave them out")
    if not (np.all(scale > 0) and noise.deviation > 0 and noise.weight > 0):
        raise LearningError("deviations of priors and noise have to be more than 0")


def _noises(strengths: Floats, sums: Floats, rest: Floats, noise: Noise) -> tuple[Floats, Floats]:
    """Deviations (g,) of the noise, evenly by their logarithm where they are likely, and the weight (g,) of each."""
    squares, count = float(rest @ rest), len(rest)
    apart = math.sqrt(squares / count) if count else noise.deviation
    low, high = math.log(noise.deviation / REACH), math.log(max(noise.deviation, apart) * REACH)
    for _ in range(CLOSER):
        logs = np.linspace(low, high, GRID)
        weights = _weights(np.exp(logs), strengths, sums, squares, count, noise)
        middle = float(weights @ logs)
        spread = math.sqrt(float(weights @ (logs - middle) ** 2)) + (high - low) / GRID / 2
        closer = max(low, middle - SIGMAS * spread), min(high, middle + SIGMAS * spread)
        if closer[1] - closer[0] > 0.7 * (high - low):
            break
        low, high = closer
    return np.exp(logs), weights


def _weights(deviations: Floats, strengths: Floats, sums: Floats, squares: float, count: int, noise: Noise) -> Floats:
    """How likely each noise is (g,): inverse-gamma before, times what the data say, coefficients integrated out."""
    variance = deviations**2
    each = variance[:, None]
    explained = np.sum(sums**2 / each / (each + strengths), axis=1)
    logs = -0.5 * count * np.log(variance) - 0.5 * np.sum(np.log1p(strengths / each), axis=1)
    logs -= 0.5 * (squares / variance - explained)
    # the density of the logarithm of the deviation: the variance's times variance, up to a constant
    logs += -0.5 * noise.weight * np.log(variance) - 0.5 * noise.weight * noise.deviation**2 / variance
    weights: Floats = np.exp(logs - logs.max())
    weights /= weights.sum()
    return weights
