"""Moments that hold a piece upright against moments that tip it, in every direction, with the worst loading."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from fitwright.checks.carried import Bits
from fitwright.checks.footprint import directions, reach
from fitwright.checks.standing import Contact
from fitwright.units import GRAVITY

Floats = NDArray[np.float64]
Mask = NDArray[np.bool_]

ROUNDS = 60


@dataclass(frozen=True, eq=False)
class Balance:
    """Everything that bears on tipping, by direction.

    toward: unit vectors (d, 2); base (d,): how far the support reaches from the piece's centre of mass [mm]; middle
    (d,): how far from the middle of the contacts [mm]. weight [N] with its centre at `height` [mm]; loads: each bit at
    height (k,) [mm] with `inside` (d, k), its distance to the tipping edge [mm], positive when it holds the piece down.
    """

    toward: Floats
    base: Floats
    middle: Floats
    weight: float
    height: float
    forces: Floats
    heights: Floats
    inside: Floats


def balance(on: Sequence[Contact], mass: float, centre: Floats, loads: Bits, toward: Floats | None = None) -> Balance:
    """The balance of a piece of `mass` [kg] with its centre of mass (3,) [mm] on its contacts."""
    aims = directions(on) if toward is None else toward
    far = reach(on, aims)
    middle = np.mean([contact.point[:2] for contact in on], axis=0)
    return Balance(
        aims,
        far - aims @ centre[:2],
        far - aims @ middle,
        mass * GRAVITY,
        float(centre[2]),
        loads.forces,
        loads.points[:, 2],
        far[:, None] - aims @ loads.points[:, :2].T,
    )


def tip_slopes(state: Balance) -> tuple[Floats, Mask]:
    """The slope (d,) at which it tips in each direction, as a tangent, and which bits of load (d, k) are then there.

    Every bit of load is there or not, whichever is worse; the slope is where the moment about the tipping edge is zero.
    Holds for a rigid piece that does not slide. Source: statics; the least ratio by Dinkelbach's method, Management
    Science 13(7), 1967.
    """
    slope = state.base / max(state.height, 1e-9)
    on = np.zeros(state.inside.shape, dtype=bool)
    for _ in range(ROUNDS):
        worse = state.forces * (state.inside - state.heights * slope[:, None]) < -1e-9
        holding = state.weight * state.base + (state.forces * state.inside * worse).sum(axis=1)
        tipping = state.weight * state.height + (worse @ (state.forces * state.heights))
        slope = holding / np.maximum(tipping, 1e-9)
        if (worse == on).all():
            break
        on = worse
    return slope, on


def tip_moments(state: Balance) -> tuple[Floats, Mask]:
    """The moment (d,) [N mm] that a push has to bring to tip it, with only the loads that help to tip it (d, k).

    Holds for a rigid piece held from sliding. Source: statics.
    """
    on = state.inside < 0
    return state.weight * state.base + np.minimum(0.0, state.forces * state.inside).sum(axis=1), on


def widening(state: Balance, slope: float, push: float, height: float) -> Floats:
    """How much farther (d,) [mm] the support must reach so that neither the slope nor a push [N] at a height tips it.

    Zero or below where it holds already. Same assumptions as `tip_slopes`; Newton's method on a concave function.
    """
    more = np.full(len(state.toward), -np.inf)
    for t, moment in ((slope, 0.0), (0.0, push * height)):
        wider = np.zeros(len(state.toward))
        for _ in range(ROUNDS):
            room = state.inside + wider[:, None] - state.heights * t
            on = state.forces * room < 0
            left = state.weight * (state.base + wider - state.height * t) - moment
            left = left + np.where(on, state.forces * room, 0.0).sum(axis=1)
            step = left / (state.weight + on @ state.forces)
            wider = wider - step
            if np.abs(step).max() < 1e-6:
                break
        more = np.maximum(more, wider)
    return more


def deficits(state: Balance, slope: float, push: float, height: float) -> Floats:
    """The moment (d,) [N mm] missing against the slope or the push, whichever lacks more; below zero: to spare."""
    tilted = state.weight * (state.base - state.height * slope)
    tilted = tilted + np.minimum(0.0, state.forces * (state.inside - state.heights * slope)).sum(axis=1)
    pushed = tip_moments(state)[0] - push * height
    return np.asarray(-np.minimum(tilted, pushed))
