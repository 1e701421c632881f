"""The value of a quantity in a state of the unknowns, and how it changes with each of them."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence

import numpy as np
from numpy.typing import NDArray

from fitwright.job.marks import AXES, Arc, Height, Length, Quantity, Spacing, Tube
from fitwright.place.photo.unknowns import CAMERA, State

Floats = NDArray[np.float64]

STEP = 1e-6


def valued(name: str, quantity: Quantity, state: State) -> tuple[float, Floats]:
    """A quantity [mm] and its gradient over the row of unknowns (size,).

    Holds for a state in which the quantity is not zero.
    """
    match quantity:
        case Length() as length:
            return _length(length, state)
        case Height(top=top, foot=foot):
            return _between(state, foot, top, "z")
        case Spacing():
            return _one(state, state.unknowns.scene.rows[name].step)
        case Arc():
            return _one(state, state.unknowns.scene.rounds[name].radius)
        case Tube() as tube:
            return _tube(tube, state)


def _length(length: Length, state: State) -> tuple[float, Floats]:
    direction = length.along or length.across
    if direction is not None:
        return _between(state, length.start, length.finish, direction)
    gap = _gap(state, length.start, length.finish)
    size = float(np.linalg.norm(gap))
    return size, _spread(state, length.start, length.finish, gap / max(size, STEP))


def _between(state: State, start: str, finish: str, direction: str) -> tuple[float, Floats]:
    """How far apart two spots are in a direction, whichever comes first."""
    gap, toward = _gap(state, start, finish), state.direction(direction)
    size = float(np.linalg.norm(toward))
    value = float(gap @ toward) / size
    sign = -1.0 if value < 0 else 1.0
    gradient = _spread(state, start, finish, toward / size)
    if direction not in AXES:
        gradient[state.unknowns.slant(direction)] += gap / size - value * toward / size**2
    return sign * value, sign * gradient


def _one(state: State, unknown: int) -> tuple[float, Floats]:
    """One of the unknowns itself, without its sign."""
    value = float(state.coordinates[unknown])
    gradient = np.zeros(state.unknowns.size)
    gradient[CAMERA + unknown] = -1.0 if value < 0 else 1.0
    return abs(value), gradient


def _tube(tube: Tube, state: State) -> tuple[float, Floats]:
    """The planes through the camera that touch the tube lie half an angle from its middle line: r = D sin(half)."""
    spots = (tube.through, tube.sides[0][0], tube.sides[1][0])
    places = [state.points[state.unknowns.scene.at(spot)] for spot in spots]
    given = np.concatenate([*places, state.direction(tube.along)])
    value, rates = _with_rates(_diameter, given)
    gradient = np.zeros(state.unknowns.size)
    for spot, rate in zip(spots, rates.reshape(4, 3), strict=False):
        np.add.at(gradient, CAMERA + state.unknowns.scene.index[state.unknowns.scene.at(spot)], rate)
    if tube.along not in AXES:
        gradient[state.unknowns.slant(tube.along)] += rates[9:]
    return value, gradient


def _diameter(given: Floats) -> float:
    numbers = given.tolist()
    through, one, other, toward = (numbers[k : k + 3] for k in (0, 3, 6, 9))
    first, second = _cross(one, toward), _cross(other, toward)
    inside = abs(sum(a * b for a, b in zip(first, second, strict=True)))
    angle = math.atan2(math.hypot(*_cross(first, second)), inside)
    return 2 * math.hypot(*_cross(through, toward)) / math.hypot(*toward) * math.sin(angle / 2)


def _cross(one: Sequence[float], other: Sequence[float]) -> tuple[float, float, float]:
    """Of two vectors as plain numbers: numpy takes many times as long for so few."""
    (a, b, c), (x, y, z) = one, other
    return b * z - c * y, c * x - a * z, a * y - b * x


def _with_rates(function: Callable[[Floats], float], given: Floats) -> tuple[float, Floats]:
    """A function's value and its rate of change with each number given, by central differences."""
    rates = np.empty(len(given))
    for k, value in enumerate(given):
        step = STEP * max(1.0, abs(value))
        ahead, behind = given.copy(), given.copy()
        ahead[k], behind[k] = value + step, value - step
        rates[k] = (function(ahead) - function(behind)) / (2 * step)
    return function(given), rates


def _gap(state: State, start: str, finish: str) -> Floats:
    scene = state.unknowns.scene
    gap: Floats = state.points[scene.at(finish)] - state.points[scene.at(start)]
    return gap


def _spread(state: State, start: str, finish: str, rates: Floats) -> Floats:
    scene, gradient = state.unknowns.scene, np.zeros(state.unknowns.size)
    np.add.at(gradient, CAMERA + scene.index[scene.at(finish)], rates)
    np.add.at(gradient, CAMERA + scene.index[scene.at(start)], -rates)
    return gradient
