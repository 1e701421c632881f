"""Dims for the new piece from what the photo shows: held dims, proportions, bounds, then stock and shop fractions.

Everything is worked in logarithms, where a proportion is a difference and a plus or minus of some per cent the same at
any size: a small weighted least-squares problem with bounds.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from enum import StrEnum

import numpy as np
from numpy.typing import NDArray

from fitwright.errors import FitwrightError

Floats = NDArray[np.float64]

LEAST_SPREAD = 0.002
"""Nothing is read from a photo to better than about 0.2 %."""
MATTERS = 0.01
"""Spread of a proportion of weight 1: it gives way to a bound by about a per cent."""
SAME_SIZE = 0.02
FREE_SIZE = 10.0


class WishError(FitwrightError, ValueError):
    """Wishes that cannot be met: a bound above another, a held dim out of its bounds, a dim that was not measured."""


class Why(StrEnum):
    """What decided a dim."""

    HELD = "held"
    LEAST = "at the least that fits"
    MOST = "at the most that fits"
    STOCK = "nearest stock size"
    PHOTO = "from the photo"


@dataclass(frozen=True)
class Reading:
    """A dim as the photo shows it, and its plus or minus (95 %), in mm or in any one unit."""

    value: float
    plus_minus: float


@dataclass(frozen=True)
class Proportion:
    """One dim to another is to stay as in the photo; weight: how much it matters beside the others, 1 the usual."""

    dim: str
    to: str
    weight: float = 1.0


@dataclass(frozen=True)
class Wishes:
    """What the maker wants.

    held: dims [mm] that are fixed. least, most: bounds [mm], as the space gives them. stock: sizes [mm] among which a
    dim has to be, such as tubes or boards on sale. step: what the others are rounded to [mm]; steps: where a dim
    has its own. same_size: the new piece
    is to be as large as the old one where nothing else decides; otherwise only its proportions count.
    """

    held: Mapping[str, float] = field(default_factory=dict)
    proportions: Sequence[Proportion] = ()
    least: Mapping[str, float] = field(default_factory=dict)
    most: Mapping[str, float] = field(default_factory=dict)
    stock: Mapping[str, Sequence[float]] = field(default_factory=dict)
    step: float = 1.5875
    steps: Mapping[str, float] = field(default_factory=dict)
    same_size: bool = False


@dataclass(frozen=True)
class Proposed:
    """A dim of the proposal [mm].

    shown: what the photo alone would give at this size [mm]; off: the part by which the value differs from that.
    """

    name: str
    value: float
    shown: float
    off: float
    why: Why


@dataclass(frozen=True)
class Proposal:
    """Dims proposed, in the order in which they were measured. scale: size of the new piece beside the old one."""

    dims: tuple[Proposed, ...]
    scale: float

    def __getitem__(self, name: str) -> Proposed:
        return next(one for one in self.dims if one.name == name)


def propose(measures: Mapping[str, Reading], wishes: Wishes) -> Proposal:
    """Dims that keep the wishes exactly and the photo's proportions as nearly as they can.

    Stock sizes are settled first, the dim that is nearest to a size before the others, the rest being fitted again each
    time; then the others are rounded to the step, into their bounds.

    Raises WishError. Holds for dims that are lengths greater than nothing.
    Source: weighted least squares with bounds (scipy, bounded-variable least squares of Stark and Parker, 1995).

    >>> old = {"width": Reading(900, 9), "height": Reading(1800, 18)}
    >>> new = propose(old, Wishes(held={"width": 800.1}, step=25.4 / 16))
    >>> round(new["height"].value / 25.4, 6)
    63.0
    """
    _check(measures, wishes)
    fixed = dict(wishes.held)
    why = dict.fromkeys(fixed, Why.HELD)
    open_stock = [name for name in wishes.stock if name in measures and name not in fixed]
    while open_stock:
        fitted, _ = _fitted(measures, wishes, fixed)
        name = min(open_stock, key=lambda one: abs(math.log(_nearest(fitted[one], _sizes(one, wishes)) / fitted[one])))
        fixed[name], why[name] = _nearest(fitted[name], _sizes(name, wishes)), Why.STOCK
        open_stock.remove(name)
    fitted, scale = _fitted(measures, wishes, fixed)
    return Proposal(tuple(_proposed(name, measures, wishes, fixed, fitted, why, scale) for name in measures), scale)


def _proposed(
    name: str,
    measures: Mapping[str, Reading],
    wishes: Wishes,
    fixed: Mapping[str, float],
    fitted: Mapping[str, float],
    why: Mapping[str, Why],
    scale: float,
) -> Proposed:
    value = fixed[name] if name in fixed else _rounded(name, fitted[name], wishes)
    shown = measures[name].value * scale
    return Proposed(name, value, shown, value / shown - 1, why.get(name) or _bound_or_photo(name, fitted[name], wishes))


def _bound_or_photo(name: str, value: float, wishes: Wishes) -> Why:
    if value <= wishes.least.get(name, 0.0) * (1 + 1e-6):
        return Why.LEAST
    return Why.MOST if value >= wishes.most.get(name, math.inf) * (1 - 1e-6) else Why.PHOTO


def _fitted(
    measures: Mapping[str, Reading], wishes: Wishes, fixed: Mapping[str, float]
) -> tuple[dict[str, float], float]:
    """Dims [mm] before rounding, and the scale."""
    from scipy.optimize import lsq_linear

    free = [name for name in measures if name not in fixed]
    table, right = _equations(measures, wishes, fixed, free)
    low = [math.log(wishes.least[name]) if wishes.least.get(name, 0) > 0 else -np.inf for name in free]
    high = [math.log(wishes.most[name]) if name in wishes.most else np.inf for name in free]
    tight = [(a, b) if b - a > 1e-9 else (a - 1e-9, b + 1e-9) for a, b in zip(low, high, strict=True)]
    bounds = ([a for a, _ in tight] + [-np.inf], [b for _, b in tight] + [np.inf])
    solved = lsq_linear(table, right, bounds=bounds, method="bvls").x
    values = {**{name: float(np.exp(x)) for name, x in zip(free, solved, strict=False)}, **fixed}
    return values, float(np.exp(solved[-1]))


def _equations(
    measures: Mapping[str, Reading], wishes: Wishes, fixed: Mapping[str, float], free: list[str]
) -> tuple[Floats, Floats]:
    """One equation for each dim's own size times the scale, one for each proportion, one for the scale itself."""
    column = {name: k for k, name in enumerate(free)}
    rows: list[Floats] = []
    right: list[float] = []

    def add(parts: Mapping[str, float], scale: float, value: float, spread: float) -> None:
        row = np.zeros(len(free) + 1)
        row[-1] = scale
        for name, part in parts.items():
            if name in column:
                row[column[name]] = part
            else:
                value -= part * math.log(fixed[name])
        rows.append(row / spread)
        right.append(value / spread)

    for name, reading in measures.items():
        add({name: 1.0}, -1.0, math.log(reading.value), max(reading.plus_minus / 1.96 / reading.value, LEAST_SPREAD))
    for one in wishes.proportions:
        shown = math.log(measures[one.dim].value / measures[one.to].value)
        add({one.dim: 1.0, one.to: -1.0}, 0.0, shown, MATTERS / one.weight)
    add({}, 1.0, 0.0, SAME_SIZE if wishes.same_size else FREE_SIZE)
    return np.array(rows), np.array(right)


def _rounded(name: str, value: float, wishes: Wishes) -> float:
    """To the step, inside the bounds; a bound itself is kept where no step fits."""
    low, high = wishes.least.get(name, 0.0), wishes.most.get(name, math.inf)
    step = wishes.steps.get(name, wishes.step)
    steps = round(value / step)
    for candidate in (steps * step, (steps - 1) * step, (steps + 1) * step):
        if low - 1e-9 <= candidate <= high + 1e-9 and candidate > 0:
            return candidate
    return min(max(value, low), high)


def _sizes(name: str, wishes: Wishes) -> list[float]:
    low, high = wishes.least.get(name, 0.0), wishes.most.get(name, math.inf)
    return [size for size in wishes.stock[name] if low - 1e-9 <= size <= high + 1e-9]


def _nearest(value: float, sizes: Sequence[float]) -> float:
    return min(sizes, key=lambda size: abs(math.log(size / value)))


def _check(measures: Mapping[str, Reading], wishes: Wishes) -> None:
    for name, reading in measures.items():
        if not reading.value > 0 or not math.isfinite(reading.value) or not reading.plus_minus >= 0:
            raise WishError(f"{name} was read as {reading.value:g}: a dim has to be a length greater than nothing")
    named = {*wishes.held, *(n for one in wishes.proportions for n in (one.dim, one.to)), *wishes.stock}
    if lost := sorted(named - set(measures)):
        raise WishError(f"{', '.join(lost)} is wished for and was not measured: measured are {', '.join(measures)}")
    for name in measures:
        low, high = wishes.least.get(name, 0.0), wishes.most.get(name, math.inf)
        if low > high:
            raise WishError(f"{name} has to be at least {low:g} mm and at most {high:g} mm: change one of them")
        if name in wishes.held and not low - 1e-9 <= wishes.held[name] <= high + 1e-9:
            raise WishError(
                f"{name} is held at {wishes.held[name]:g} mm, outside {low:g} to {high:g} mm: change one of them"
            )
        if name in wishes.stock and not _sizes(name, wishes):
            raise WishError(
                f"no stock size of {name} lies between {low:g} and {high:g} mm: add one or widen the bounds"
            )
    if not all(step > 0 for step in (wishes.step, *wishes.steps.values())) or any(
        one.weight <= 0 for one in wishes.proportions
    ):
        raise WishError("the step and every weight have to be greater than nothing")
