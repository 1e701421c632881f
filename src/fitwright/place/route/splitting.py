"""Where to make a piece in two halves with a bolted joint: across as few parts as possible, near the middle."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np

from fitwright.place.route.bulk import halves
from fitwright.place.route.model import Bulk

EVERY = 25.0  # places looked at along the piece [mm]
MIDDLE = (0.25, 0.75)  # a half is at least a quarter
ACROSS = ("from left to right", "from front to back", "in height")


@dataclass(frozen=True, eq=False)
class Split:
    """Two halves: across axis 0, 1 or 2 at a coordinate [mm], so many parts cut; what it is called."""

    axis: int
    at: float
    cuts: int
    bulks: tuple[Bulk, Bulk]
    name: str


def split(bulk: Bulk) -> Iterable[Split]:
    """The piece in two halves, along its longest side first, then along the next."""
    for axis in np.argsort(-bulk.size)[:2].tolist():
        yield _along(bulk, int(axis))


def _along(bulk: Bulk, axis: int) -> Split:
    """Where fewest parts cross the plane; of equals the place nearest to the middle."""
    low, high = float(bulk.points[:, axis].min()), float(bulk.points[:, axis].max())
    size = high - low
    places = np.arange(low + MIDDLE[0] * size, low + MIDDLE[1] * size, EVERY)
    spans = np.array([(lump.corners[:, axis].min(), lump.corners[:, axis].max()) for lump in bulk.lumps])
    cuts = ((spans[:, 0] < places[:, None]) & (places[:, None] < spans[:, 1])).sum(axis=1)
    order = np.lexsort((np.abs(places - (low + high) / 2), cuts))
    at = float(places[order[0]])
    name = f"in two halves {ACROSS[axis]}"
    if bulk.name != "as built":
        name = f"{bulk.name}, {name}"
    return Split(axis, at, int(cuts[order[0]]), halves(bulk, axis, at), name)
