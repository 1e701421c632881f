"""The most likely camera and places of all marked points, with their covariance."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from fitwright.job.marks import Known, Quantity
from fitwright.place.photo.beginning import axes_marked, beginnings, begun
from fitwright.place.photo.descending import least
from fitwright.place.photo.equations import Equations
from fitwright.place.photo.quantities import valued
from fitwright.place.photo.scene import Scene, spots_of
from fitwright.place.photo.unknowns import Start, State, Unknowns
from fitwright.place.photo.usual import Expected

Floats = NDArray[np.float64]

LEVEL_RAD = np.radians(12)
"""Common practice: a camera held by hand is level within some degrees; used only where the marks leave it open."""
OPEN_RAD = 1.5
TRIES = 3
DOUBTED = 0.002
"""Marks that fit so badly that chance would do it once in 500 times have their spread raised to what they show."""
WEAKEST = 1e-14


@dataclass(frozen=True)
class Estimate:
    """The most likely state, its equations, and the sum of squares of what they miss.

    raised: by what the spreads of all marks are multiplied, for marks that fit worse than their clicks allow.
    """

    state: State
    equations: Equations
    misfit: float
    freedom: int
    raised: float

    @cached_property
    def covariance(self) -> Floats:
        """Of the row of unknowns (size, size), to first order: the inverse of the information, raised."""
        rates = self.equations.rates(self.state.row)
        scale = np.maximum(np.linalg.norm(rates, axis=0), WEAKEST)
        return np.asarray(self.raised**2 * _inverse((rates / scale).T @ (rates / scale)) / np.outer(scale, scale))

    def value(self, name: str, quantity: Quantity) -> tuple[float, float, Floats]:
        """A quantity, its spread (one sigma) and its gradient over the row [mm]."""
        value, gradient = valued(name, quantity, self.state)
        return value, float(np.sqrt(gradient @ self.covariance @ gradient)), gradient


def estimated(
    scene: Scene,
    expected: Expected,
    size: tuple[int, int],
    known: Sequence[tuple[str, Known]],
    before: Estimate | None = None,
) -> Estimate:
    """Fit everything at once.

    before: an estimate of nearly the same marks, from which to begin; taken when it fits the scene's shape.
    Source: maximum a posteriori with Gaussian clicks and the expectations of `usual`.
    """
    again = _again(scene, expected, known, before) if before else None
    if again is not None:
        return again
    lenses = beginnings(scene, expected, size)[:TRIES]
    return min(
        (_fitted(scene, expected, known, begun(scene, lens, known)) for lens in lenses), key=lambda one: one.misfit
    )


def _again(scene: Scene, expected: Expected, known: Sequence[tuple[str, Known]], before: Estimate) -> Estimate | None:
    old = before.state.unknowns
    if not _alike(scene, old.scene):
        return None
    unknowns = Unknowns(scene, old.lens, before.state.rotation)
    row = before.state.row.copy()
    row[4:7] = 0.0
    return _solved(unknowns, expected, known, row)


def _alike(one: Scene, other: Scene) -> bool:
    return (
        one.names == other.names
        and np.array_equal(one.index, other.index)
        and [len(s.sigmas) for s in one.straights] == [len(s.sigmas) for s in other.straights]
        and list(one.lines) == list(other.lines)
    )


def _fitted(scene: Scene, expected: Expected, known: Sequence[tuple[str, Known]], start: Start) -> Estimate:
    unknowns = Unknowns(scene, start.lens, start.rotation)
    return _solved(unknowns, expected, known, unknowns.row(start))


def _solved(unknowns: Unknowns, expected: Expected, known: Sequence[tuple[str, Known]], row: Floats) -> Estimate:
    scene = unknowns.scene
    distances = np.linalg.norm(unknowns.state(row).points, axis=1)
    level = OPEN_RAD if axes_marked(scene) > 1 else float(LEVEL_RAD)
    equations = Equations(unknowns, expected, known, distances, _gauges(scene, known), level)
    found = least(equations.misses, equations.rates, row)
    misses = equations.misses(found)
    misfit = float(misses @ misses)
    freedom = _freedom(unknowns, len(misses))
    return Estimate(unknowns.state(found), equations, misfit, freedom, _raised(misfit, freedom))


def _gauges(scene: Scene, known: Sequence[tuple[str, Known]]) -> list[int]:
    """The first point of each group that no known length scales."""
    scaled = {group for _, one in known for group in scene.groups_of(spots_of(one.quantity))}
    groups = scene.group[scene.index[:, 0]] if len(scene.index) else np.zeros(0, dtype=np.int64)
    return [int(np.flatnonzero(groups == group)[0]) for group in np.unique(groups) if int(group) not in scaled]


def _freedom(unknowns: Unknowns, equations: int) -> int:
    """Equations beyond those needed: two of the three of a parallel pair count, and the open turn does not."""
    pairs = sum(len(one.pairs) for one in unknowns.scene.slanted)
    return equations - unknowns.size - pairs - 3


def _raised(misfit: float, freedom: int) -> float:
    from scipy.special import chdtrc

    if freedom < 1 or chdtrc(freedom, misfit) > DOUBTED:
        return 1.0
    return float(np.sqrt(misfit / freedom))


def _inverse(information: Floats) -> Floats:
    """The inverse; where something is left quite open, its spread is enormous and not infinite."""
    from scipy.linalg import LinAlgError, cho_factor, cho_solve

    try:
        return np.asarray(cho_solve(cho_factor(information, lower=True), np.eye(len(information))))
    except LinAlgError:
        strength, toward = np.linalg.eigh(information)
        half = toward / np.sqrt(np.maximum(strength, WEAKEST * strength[-1]))
        return np.asarray(half @ half.T)
