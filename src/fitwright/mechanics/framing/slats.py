"""How slats hand their load on: each by itself, to the two members under it between which the load lies."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from fitwright.mechanics.model import Floats, Ints

ALONG = 0.2
SAME_MM = 5.0


@dataclass(frozen=True, eq=False)
class Stretch:
    """A straight stretch on which a panel bears: a point (3,) and direction (3,) of it, from `start` to `end` [mm]."""

    point: Floats
    direction: Floats
    start: float
    end: float


def by_slats(stretches: list[Stretch | None], centres: Floats, along: int, across: int, part: Floats) -> Floats:
    """(b, c) part of each cell's load that each bearing takes; as in `part` where a slat has not two under it.

    stretches: (b,), None for a post. centres: (c, 3) of the cells. along, across: the axes of the slats.
    Holds for slats that are not fixed to one another; over three members and more the middle ones of a board in one
    piece take up to a quarter more (common practice to leave that out). Source: statics, the lever rule.
    """
    split = part.copy()
    for v in np.unique(centres[:, across]):
        which, at = _crossed(stretches, along, across, float(v))
        if len(at) < 2:
            continue
        row = np.flatnonzero(centres[:, across] == v)
        u = centres[row, along]
        left = np.clip(np.searchsorted(at, u) - 1, 0, len(at) - 2)
        far = (u - at[left]) / (at[left + 1] - at[left])
        split[:, row] = 0.0
        split[which[left], row] = 1 - far
        split[which[left + 1], row] = far
    return split


def _crossed(stretches: list[Stretch | None], along: int, across: int, v: float) -> tuple[Ints, Floats]:
    """The numbers of the bearings that a slat at `v` lies across, and where along it [mm], in order."""
    found = []
    for number, stretch in enumerate(stretches):
        if stretch is None or abs(float(stretch.direction[across])) < ALONG:
            continue
        t = (v - float(stretch.point[across])) / float(stretch.direction[across])
        if stretch.start <= t <= stretch.end:
            found.append((float(stretch.point[along] + t * stretch.direction[along]), number))
    kept: list[tuple[float, int]] = []
    for at, number in sorted(found):
        if not kept or at - kept[-1][0] > SAME_MM:
            kept.append((at, number))
    return np.array([number for _, number in kept], dtype=np.intp), np.array([at for at, _ in kept])
