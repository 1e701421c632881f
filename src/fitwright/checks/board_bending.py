"""A board lying loose on its rests under an even load: spans, moments, sag."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]

PER_SPAN = 16  # elements in each span: exact at their nodes for an even load, where the largest sag is looked for


@dataclass(frozen=True, eq=False)
class Bent:
    """What an even load does to a board: largest moment [N mm], largest sag in a span [mm] and that span [mm], sag of
    the worse overhanging end [mm] and its length [mm], reactions (k,) [N]; a rest that would pull carries nothing."""

    moment: float
    sag: float
    span: float
    end_sag: float
    overhang: float
    reactions: Floats


def bend(length: float, rests: Floats, load: float, stiffness: float) -> Bent:
    """A board of `length` [mm] on rests (k,) [mm from its start] under `load` [N/mm], stiffness E I [N mm2].

    At least two rests. Holds for small sag and rests that do not give. Source: Euler beam elements, exact for an even
    load at their nodes; rests that would have to hold the board down are let go.
    """
    held = np.sort(rests)
    while True:
        x = _nodes(length, held)
        shape, reactions = _solve(x, held, load, stiffness)
        if len(held) == 2 or reactions.min() >= 0:
            break
        held = np.delete(held, int(np.argmin(reactions)))
    return _read(length, x, held, shape, reactions, load)


def even_load_sag(load: float, span: float, stiffness: float) -> float:
    """Sag in the middle of a simple span [mm] under `load` [N/mm]. Source: 5 w L^4 / (384 E I).

    >>> round(even_load_sag(1.0, 36.0, 1.24e6 * 0.19336), 4)
    0.0912
    """
    return 5 * load * span**4 / (384 * stiffness)


def _nodes(length: float, held: Floats) -> Floats:
    marks = np.unique(np.concatenate([[0.0], held, [length]]))
    parts = [np.linspace(a, b, PER_SPAN + 1)[:-1] for a, b in pairwise(marks) if b - a > 1e-6]
    return np.concatenate([*parts, [length]])


def _solve(x: Floats, held: Floats, load: float, stiffness: float) -> tuple[Floats, Floats]:
    """Sag and slope at the nodes (n, 2), downward, and the reactions (k,), upward."""
    count, h = len(x), np.diff(x)
    k = np.zeros((2 * count, 2 * count))
    f = np.zeros(2 * count)
    for i, step in enumerate(h):
        dofs = slice(2 * i, 2 * i + 4)
        k[dofs, dofs] += stiffness / step**3 * _element(step)
        f[dofs] += load * step / 2 * np.array([1.0, step / 6, 1.0, -step / 6])
    fixed = np.array([2 * int(np.argmin(np.abs(x - at))) for at in held])
    free = np.setdiff1d(np.arange(2 * count), fixed)
    moved = np.zeros(2 * count)
    moved[free] = np.linalg.solve(k[np.ix_(free, free)], f[free])
    reactions = f[fixed] - k[fixed] @ moved
    return moved.reshape(-1, 2), np.asarray(reactions)


def _element(h: float) -> Floats:
    """Stiffness (4, 4) of a beam element of length h over E I / h^3. Source: any text on matrix analysis."""
    return np.array(
        [
            [12.0, 6 * h, -12.0, 6 * h],
            [6 * h, 4 * h * h, -6 * h, 2 * h * h],
            [-12.0, -6 * h, 12.0, -6 * h],
            [6 * h, 2 * h * h, -6 * h, 4 * h * h],
        ]
    )


def _read(length: float, x: Floats, held: Floats, shape: Floats, reactions: Floats, load: float) -> Bent:
    moments = load * x**2 / 2 - np.maximum(x[:, None] - held, 0.0) @ reactions
    spans = np.diff(held)
    sags = [float(shape[(x >= a - 1e-6) & (x <= b + 1e-6), 0].max()) for a, b in pairwise(held)]
    worst = int(np.argmax(np.array(sags) / spans))
    ends = [(float(shape[0, 0]), float(held[0])), (float(shape[-1, 0]), float(length - held[-1]))]
    end = max(ends)
    return Bent(float(np.abs(moments).max()), sags[worst], float(spans[worst]), end[0], end[1], reactions)
