"""Closed boxes to be carried."""

from __future__ import annotations

import numpy as np

from fitwright.place.route.bulk import CORNERS
from fitwright.place.route.model import Bulk, Lump


def box(width: float, depth: float, high: float, *, rolls: bool = False, mass: float = 40.0) -> Bulk:
    """A box of uniform density, one corner at the origin."""
    size = np.array([width, depth, high])
    return Bulk("a box", (Lump(CORNERS * size, mass, "box"),), mass, size / 2, rolls)
