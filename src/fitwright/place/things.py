"""Pipes, outlets, sills and other things in the place: where they are, and how near the piece comes on its way in."""

from __future__ import annotations

from math import hypot

import numpy as np
from numpy.typing import NDArray

from fitwright.job.model import Space, Thing
from fitwright.place.meeting import Nearest, farthest_in_sight, nearest_beside
from fitwright.place.model import Gap
from fitwright.place.outline import Skin
from fitwright.place.survey.tape import USUAL, spread_of
from fitwright.place.walls import Walls

Floats = NDArray[np.float64]
Box = tuple[Floats, Floats]


def box_of(thing: Thing, walls: Walls) -> Box | None:
    """Low and high corners (3,), (3,) of a thing in the opening's coordinates [mm]; None on a wall not measured.

    A thing on a wall out of square or out of plumb gets the box that holds it.
    """
    low, high = np.array(thing.low), np.array(thing.high)
    if thing.on is None:
        return low, high
    along = np.array([low[0], low[0], high[0], high[0]])
    up = np.array([low[1], high[1], low[1], high[1]])
    if thing.on == "back":
        if not walls.depths:
            return None
        wall = walls.back(up, along)
        return np.array([low[0], wall.min() - high[2], low[1]]), np.array([high[0], wall.max(), high[1]])
    if not walls.widths:
        return None
    left, right = walls.sides(up, along)
    if thing.on == "left":
        return np.array([left.min(), low[0], low[1]]), np.array([left.max() + high[2], high[0], high[1]])
    return np.array([right.min() - high[2], low[0], low[1]]), np.array([right.max(), high[0], high[1]])


def gap_to(thing: Thing, box: Box, skin: Skin, space: Space, stands_open: tuple[float, float]) -> Gap | None:
    """The smallest gap between a thing and the piece, pushed straight in from the front to its place; None for none.

    skin: the piece in its place. What lies before the thing as seen from the front must stop short of it; what passes
    beside it, above or below, must not touch it. stands_open: what the survey leaves open of the piece's place (x, y).
    Holds for gaps along the axes and square to the way in; corners that come near across all three are not told.
    """
    low, high = box
    behind = farthest_in_sight(skin, low, high, axis=1, sign=1.0)
    beyond = skin.only(skin.high[:, 1] > low[1])
    beside = nearest_beside(beyond, low, high, axis=1) if len(beyond.triangles) else None
    known = USUAL * spread_of(float(np.abs(box).max()), space.within)
    found = []
    if behind is not None:
        gap = float(low[1] - behind.gap)
        spread, wanted = hypot(known, stands_open[1]), _wanted(space, skin, box, "back")
        found.append(_gap(thing, behind, "back", gap, wanted, spread, max(-gap, 0.0)))
    if beside is not None and beside.gap > 0.0:
        side = _side(beside.way)
        spread = hypot(known, stands_open[0]) if side in ("left", "right") else known
        before = max(float(beside.point[1] - high[1]), 0.0)
        found.append(_gap(thing, beside, side, beside.gap, _wanted(space, skin, box, side), spread, before))
    return min(found, key=lambda gap: gap.value - gap.wanted, default=None)


def _gap(thing: Thing, near: Nearest, side: str, gap: float, wanted: float, spread: float, before: float) -> Gap:
    x, y, z = near.point.tolist()
    return Gap(
        side, gap, z, wanted, spread=spread, against=thing.name, before=before, point=(x, y, z), part=near.owner
    )  # fmt: skip


def _wanted(space: Space, skin: Skin, box: Box, side: str) -> float:
    """The gap wanted on a side, where a thing stands wholly on that side of the piece; else it only must not touch."""
    axis = {"left": 0, "right": 0, "back": 1}.get(side, 2)
    if side in ("left", "below"):
        beyond = float(box[1][axis]) <= float(skin.low[:, axis].min())
    else:
        beyond = float(box[0][axis]) >= float(skin.high[:, axis].max())
    return space.clear.get(side, 0.0) if beyond else 0.0


def _side(way: Floats) -> str:
    """On which side of the piece a thing lies, by the way (x, z) from the piece to it."""
    if abs(way[0]) >= abs(way[1]):
        return "right" if way[0] > 0 else "left"
    return "top" if way[1] > 0 else "below"
