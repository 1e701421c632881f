"""The three lines on a template: through the wall at its worst, on the outside, on the inside."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
from numpy.typing import NDArray

from fitwright.making.coping.strip import Strip

Floats = NDArray[np.float64]
Stop = Callable[[Floats], Floats]
"""Where the material stops (k,) [mm beyond the drawn end] on lines along the member through section points (k, 2)."""

THROUGH = 9  # stations through the wall, once over the whole of it and once about the worst of them
CHORD_MM = 0.002  # that the drawn polyline may be off the true line, halfway between its points
STARTING = 144
HALVINGS = 9


def wall_lines(strip: Strip, stop: Stop, s: Floats) -> Floats:
    """Where the cut runs at places s (k,) of a strip: columns (k, 3) square through the wall, outside, inside.

    Square through the wall, the metal reaches one length from the outside to the inside, so that it must stop where
    the first of it meets something: the least stop on the way through the wall.
    Holds for cuts whose line changes smoothly through the wall. Source: geometry.
    """
    outer, inner = strip.outer(s), strip.inner(s)
    on_outside = stop(outer)
    if not strip.wall:
        return np.column_stack([on_outside] * 3)
    even = np.linspace(0.0, 1.0, THROUGH)
    parts = np.broadcast_to(even, (len(s), THROUGH))
    found = _through(stop, outer, inner, parts)
    best = np.argmin(found, axis=1)
    low, high = even[np.maximum(best - 1, 0)], even[np.minimum(best + 1, THROUGH - 1)]
    closer = _through(stop, outer, inner, low[:, None] + (high - low)[:, None] * even)
    least = np.minimum(found.min(axis=1), closer.min(axis=1))
    return np.column_stack([least, on_outside, found[:, -1]])


def _through(stop: Stop, outer: Floats, inner: Floats, parts: Floats) -> Floats:
    """Stops (k, m) at fractions `parts` (k, m) of the way from the outside to the inside."""
    points = outer[:, None, :] + parts[:, :, None] * (inner - outer)[:, None, :]
    return stop(points.reshape(-1, 2)).reshape(parts.shape)


def traced(curve: Callable[[Floats], Floats], girth: float, knots: Floats) -> tuple[Floats, Floats]:
    """Places x (n,) from 0 to girth close enough that chords stay on the curve, and the curve (n, 3) there.

    curve: x (k,) to heights (k, 3) [mm]; knots (m,): places that must be among x.
    """
    x = np.unique(np.concatenate([np.linspace(0.0, girth, STARTING + 1), np.clip(knots, 0.0, girth)]))
    x = x[np.concatenate([[True], np.diff(x) > 1e-9])]
    x[-1] = girth
    y = curve(x)
    open_ = np.ones(len(x) - 1, dtype=bool)
    for _ in range(HALVINGS):
        middles = ((x[:-1] + x[1:]) / 2)[open_]
        if not len(middles):
            break
        found = curve(middles)
        off = np.abs(found - (y[:-1][open_] + y[1:][open_]) / 2).max(axis=1)
        x, y, open_ = _merged(x, y, open_, middles, found, off > CHORD_MM)
    return x, y


def _merged(
    x: Floats, y: Floats, open_: NDArray[np.bool_], middles: Floats, found: Floats, again: NDArray[np.bool_]
) -> tuple[Floats, Floats, NDArray[np.bool_]]:
    """The polyline with its new points, and which of its spans are still to be halved."""
    at = np.flatnonzero(open_) + 1
    spans = np.zeros(len(open_), dtype=bool)
    spans[at - 1] = again
    spans = np.insert(spans, at, again)
    return np.insert(x, at, middles), np.insert(y, at, found, axis=0), spans
