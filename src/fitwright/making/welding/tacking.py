"""Tacks first: where, and in which order."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from fitwright.making.welding.model import Tack, Weld
from fitwright.making.welding.sides import side_in_words
from fitwright.mechanics.shrinkage import tack_places

Floats = NDArray[np.float64]


def tack_plan(welds: Sequence[Weld]) -> tuple[Tack, ...]:
    """All tacks in order: one on every joint, each time the joint farthest from those held so far, then the others,
    on each joint the side opposite the one before.

    So the frame is held from its ends inward before any joint is stiff, and can still be squared after the first round.
    Common practice.
    """
    if not welds:
        return ()
    order = far_apart(np.array([weld.at for weld in welds]))
    places = [_opposite(tack_places(weld.bead)) for weld in welds]
    rounds = max(len(at) for at in places)
    found: list[Tack] = []
    for turn in range(rounds):
        for k in order:
            if turn < len(places[k]):
                weld, at = welds[k], places[k][turn]
                side = side_in_words(at - weld.at)
                found.append(Tack(len(found) + 1, weld.number, at, weld.bead.tack_length, side))
    return tuple(found)


def far_apart(points: Floats) -> list[int]:
    """Order of points (k, 3) in which each is the farthest from all before it, from the one farthest out on.

    Source: farthest-point traversal, T. F. Gonzalez, Theoretical Computer Science 38 (1985) 293-306.
    """
    first = int(np.argmax(np.linalg.norm(points - points.mean(axis=0), axis=1)))
    order, nearest = [first], np.linalg.norm(points - points[first], axis=1)
    while len(order) < len(points):
        nearest[order] = -1.0
        order.append(int(np.argmax(nearest)))
        nearest = np.minimum(nearest, np.linalg.norm(points - points[order[-1]], axis=1))
    return order


def _opposite(places: Floats) -> Floats:
    """The tacks of one joint (t, 3), each as far as can be from those before."""
    return np.asarray(places[far_apart(places)]) if len(places) > 1 else places
