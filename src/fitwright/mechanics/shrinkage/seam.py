"""Where a weld runs: points of the line along which two members touch, with the directions that shrinkage needs."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from functools import cached_property

import numpy as np

from fitwright.mechanics.model import Bools, Floats
from fitwright.stock import Angle, Flat, RectTube, RoundTube, Section

THIN_MM = 1.0
"""Two lines of weld nearer than this are one."""


class WeldKind(StrEnum):
    """Fillet in the corner of two surfaces; flush where they lie side by side; butt where two ends meet."""

    FILLET = "fillet"
    FLUSH = "flush"
    BUTT = "butt"


@dataclass(frozen=True, eq=False)
class Seam:
    """The line of one weld: k pieces of seam.

    joint: index in the piece. first: the member whose edge is welded, at its `end`; second: the one it is welded to.
    For a lap or a crossing end is None.
    points: (k, 3) [mm]; along: (k, 3) unit vectors of the weld's run; length: (k,) [mm]; gap: (k,) to be filled [mm].
    flush: (k,) true where the two surfaces lie side by side.
    pull: (3,) unit vector in which the first member is drawn by the weld. run: (3,) direction of the second member.
    thickness: of the thinner wall [mm]; kind, see `WeldKind`.
    around: length all the way round the branch, welded or not [mm].
    """

    joint: int
    first: int
    second: int
    end: int | None
    kind: WeldKind
    points: Floats
    along: Floats
    length: Floats
    gap: Floats
    flush: Bools
    pull: Floats
    run: Floats
    thickness: float
    around: float

    @cached_property
    def total(self) -> float:
        """Length of the weld [mm]."""
        return float(self.length.sum())

    @cached_property
    def middle(self) -> Floats:
        """(3,) centroid of the line [mm]."""
        middle: Floats = self.length @ self.points / self.total
        return middle

    @property
    def mean_gap(self) -> float:
        """Mean gap that the weld has to fill [mm]."""
        return float(self.length @ self.gap) / self.total

    @cached_property
    def acrosses(self) -> tuple[Floats, Floats]:
        """Two unit vectors (3,) square to the pull: across the second member, and along it. Either can part the seam
        in two."""
        side = np.cross(self.pull, self.run)
        norm = float(np.linalg.norm(side))
        across = side / norm if norm > 0.1 else any_normal(self.pull)
        across = across if across[int(np.argmax(np.abs(across)))] > 0 else -across
        return np.asarray(across), np.asarray(np.cross(across, self.pull))

    def sides(self, split: int = 0) -> tuple[Bools, Bools]:
        """(k,), (k,) which pieces lie on one side and on the other of the middle, seen along one of `acrosses`.

        The second is empty where the pieces all lie in one line across.
        """
        place = (self.points - self.middle) @ self.acrosses[split]
        one: Bools = np.asarray(place > 0)
        if not one.any() or one.all() or float(np.ptp(place)) < THIN_MM:
            return np.ones(len(place), dtype=np.bool_), np.zeros(len(place), dtype=np.bool_)
        return one, ~one


def any_normal(vector: Floats) -> Floats:
    """A unit vector (3,) at right angles to one given (3,)."""
    helper = np.eye(3)[int(np.argmin(np.abs(vector)))]
    side = np.cross(vector, helper)
    return np.asarray(side / np.linalg.norm(side))


def wall(section: Section) -> float:
    """Thickness of metal at a weld [mm]; half of a solid bar, that a weld on its outside heats."""
    if isinstance(section, RoundTube | RectTube):
        return section.wall
    if isinstance(section, Angle | Flat):
        return section.thickness
    low, high = section.extents[0], section.extents[1]
    return (high - low) / 2
