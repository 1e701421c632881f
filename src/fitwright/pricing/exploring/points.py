"""Which points to try: all of a grid, or a sample spread evenly over the ranges."""

from __future__ import annotations

import math
import warnings
from collections.abc import Sequence
from fractions import Fraction
from itertools import product
from typing import Literal

from fitwright.pricing.exploring.trying import Point, Setting
from fitwright.pricing.exploring.varying import Vary, VaryError

Spread = Literal["sobol", "latin"]
MOST_POINTS = 20_000
FINE = 10**9


def grid(varies: Sequence[Vary]) -> tuple[Point, ...]:
    """Every combination of the values, the last variation going quickest.

    Raises VaryError for a range without a count, the same thing varied twice, and too many points.
    """
    _check(varies)
    loose = [vary.name for vary in varies if not vary.values]
    if loose:
        raise VaryError(f"{loose[0]} is a range without a count: write {loose[0]}=A..B:4, or take a sample")
    total = math.prod(len(vary.values) for vary in varies)
    if total > MOST_POINTS:
        raise VaryError(f"{total} points are too many: at most {MOST_POINTS}; take a sample")
    chosen = product(*(vary.values for vary in varies))
    return tuple(_point(number, varies, values) for number, values in enumerate(chosen, 1))


def sampled(varies: Sequence[Vary], count: int, seed: int = 0, spread: Spread = "sobol") -> tuple[Point, ...]:
    """So many points spread over the ranges and values, the same for the same seed; of equal ones, the first is kept.

    Raises VaryError as `grid` does, and for a count that cannot be.
    Source: scrambled Sobol or Latin hypercube sequences, scipy.stats.qmc.
    """
    _check(varies)
    if not 1 <= count <= MOST_POINTS:
        raise VaryError(f"a sample of {count} points cannot be: 1 to {MOST_POINTS}")
    rows = _even(len(varies), count, seed, spread)
    found = dict.fromkeys(tuple(_at(vary, at) for vary, at in zip(varies, row, strict=True)) for row in rows)
    return tuple(_point(number, varies, values) for number, values in enumerate(found, 1))


def _even(dims: int, count: int, seed: int, spread: Spread) -> list[list[float]]:
    """Points (count, dims) in 0 to 1."""
    from scipy.stats import qmc

    if spread == "latin":
        return [[float(at) for at in row] for row in qmc.LatinHypercube(d=dims, seed=seed).random(count)]
    with warnings.catch_warnings():
        warnings.simplefilter("ignore", UserWarning)  # a count that is no power of two is a little less even
        return [[float(at) for at in row] for row in qmc.Sobol(d=dims, seed=seed).random(count)]


def _at(vary: Vary, at: float) -> str:
    if vary.values:
        return vary.values[min(int(at * len(vary.values)), len(vary.values) - 1)]
    return vary.between(Fraction(round(at * FINE), FINE))


def _check(varies: Sequence[Vary]) -> None:
    if not varies:
        raise VaryError("nothing to vary: give at least one, such as depth=22..28:4")
    paths = [vary.path for vary in varies]
    twice = next((vary.name for vary in varies if paths.count(vary.path) > 1), None)
    if twice:
        raise VaryError(f"{twice} is varied twice: put its values together with |")


def _point(number: int, varies: Sequence[Vary], values: Sequence[str]) -> Point:
    settings = tuple(Setting(vary.path, value) for vary, value in zip(varies, values, strict=True))
    words = ", ".join(f"{vary.name} {value}" for vary, value in zip(varies, values, strict=True))
    return Point(number, words, settings)
