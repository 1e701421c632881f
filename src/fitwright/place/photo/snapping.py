"""A rough mark along an edge moved to the strongest edge nearby, to a fraction of a pixel."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Grey = NDArray[np.uint8]

REACH = 10.0
"""How far from the mark an edge is looked for [px], unless said."""
STEP = 0.25
SMOOTH = 1.0
STATIONS = 60
SPACING = 3.0
INSET = 0.06
"""Part of the mark left out at each end, where other edges meet it."""
WEAKEST = 4.0
"""Grey steps per pixel below which there is no edge to speak of."""
AGREEING = 0.4
ROUNDS = 8
FINEST = 0.1
FAR_OFF = 2.5
LEFT_OVER = 8


@dataclass(frozen=True)
class Snapped:
    """Places (k, 2) along the edge found [px], and their spread (one sigma) [px]; k is 0 when there is no edge."""

    spots: Floats
    sigma: float

    @property
    def found(self) -> bool:
        """Whether an edge was found."""
        return len(self.spots) > 0


NOTHING = Snapped(np.zeros((0, 2)), 0.0)


def snapped(grey: Grey, start: Floats, finish: Floats, reach: float = REACH, spots: int = 9) -> Snapped:
    """The edge along a mark from start (2,) to finish (2,) [px], as so many places along it.

    Across the mark the steepest change of grey is looked for at up to 60 stations, those that go the same way (dark to
    light, or light to dark) are kept, and a parabola, for a lens may bow the edge, is fitted to them without outliers.
    Holds for an edge within `reach` of the mark that is the strongest there along most of it.
    """
    toward, length = _toward(start, finish)
    if length < 4 * SPACING:
        return NOTHING
    across = np.array([-toward[1], toward[0]])
    stations = np.linspace(INSET, 1 - INSET, int(np.clip(length / SPACING, 8, STATIONS)))
    offsets = np.arange(-reach, reach + STEP / 2, STEP)
    middles = start + stations[:, None] * (finish - start)
    slopes = _slopes(grey, middles[:, None] + offsets[None, :, None] * across)
    where, strong = _steepest(slopes, offsets)
    fitted = _bowed(2 * stations - 1, np.where(strong, where, np.nan))
    if fitted is None:
        return NOTHING
    curve, sigma = fitted
    places = np.linspace(INSET, 1 - INSET, spots)
    shift = np.polyval(curve, 2 * places - 1)
    return Snapped(start + places[:, None] * (finish - start) + shift[:, None] * across, sigma)


def _toward(start: Floats, finish: Floats) -> tuple[Floats, float]:
    length = float(np.linalg.norm(finish - start))
    return (finish - start) / max(length, 1e-9), length


def _slopes(grey: Grey, places: Floats) -> Floats:
    """Change of grey per pixel across the mark (stations, offsets), smoothed along the offsets."""
    from scipy.ndimage import gaussian_filter1d, map_coordinates

    values = map_coordinates(grey, [places[..., 1], places[..., 0]], output=np.float64, order=1, mode="nearest")
    slopes: Floats = gaussian_filter1d(values, SMOOTH / STEP, axis=1, order=1, mode="nearest") / STEP
    return slopes


def _steepest(slopes: Floats, offsets: Floats) -> tuple[Floats, NDArray[np.bool_]]:
    """Where each station is steepest in the sense that is stronger over all, and whether that is an edge."""
    rising, falling = slopes.max(axis=1), -slopes.min(axis=1)
    signed = slopes if np.median(rising) >= np.median(falling) else -slopes
    top = np.clip(signed.argmax(axis=1), 1, len(offsets) - 2)
    rows = np.arange(len(signed))
    before, here, after = signed[rows, top - 1], signed[rows, top], signed[rows, top + 1]
    curve = before - 2 * here + after
    shift = np.where(curve < 0, (before - after) / np.where(curve < 0, 2 * curve, 1.0), 0.0)
    return offsets[top] + np.clip(shift, -1, 1) * STEP, (here > WEAKEST) & (here > 0.3 * np.median(here))


def _bowed(along: Floats, where: Floats) -> tuple[Floats, float] | None:
    """A parabola through the stations without those far off, and the spread of a place on it [px]."""
    good = np.isfinite(where)
    if good.sum() < max(LEFT_OVER, AGREEING * len(where)):
        return None
    middle = float(np.median(where[good]))
    good &= np.abs(where - middle) < REACH
    curve = np.array([0.0, 0.0, middle])
    for round_ in range(ROUNDS):
        rest = where - np.polyval(curve, along)
        near = good & (np.abs(rest) < max(FAR_OFF * 1.4826 * float(np.median(np.abs(rest[good]))), 0.3))
        if near.sum() < LEFT_OVER:
            return None
        fitted = np.polyfit(along[near], where[near], min(round_, 2))
        curve = np.concatenate([np.zeros(3 - len(fitted)), fitted])
    if near.sum() < AGREEING * len(where):
        return None
    spread = float(np.sqrt(((where - np.polyval(curve, along))[near] ** 2).sum() / (near.sum() - 3)))
    return curve, max(spread, FINEST)
