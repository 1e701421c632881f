"""What is carried, how it is held, and what came of one obstacle."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from enum import StrEnum
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from fitwright.job.obstacles import Obstacle

Floats = NDArray[np.float64]

LIFT_MM = 20.0
"""How far above the floor a carried piece is held at least (common practice)."""


@dataclass(frozen=True, eq=False)
class Lump:
    """One convex part of what is carried: corners (k, 3) of its hull [mm], its mass [kg], what it belongs to."""

    corners: Floats
    mass: float
    of: str


@dataclass(frozen=True, eq=False)
class Bulk:
    """What is carried in one go, in the piece's own coordinates.

    name: "as built", "casters off"; lumps: convex parts, at least as large as the real ones; mass [kg]; centre (3,) of
    mass [mm]; rolls: whether it stands on casters.
    """

    name: str
    lumps: tuple[Lump, ...]
    mass: float
    centre: Floats
    rolls: bool = False

    @cached_property
    def points(self) -> Floats:
        """Corners (n, 3) of the hull of everything [mm]."""
        from scipy.spatial import ConvexHull, QhullError

        every = np.vstack([lump.corners for lump in self.lumps])
        try:
            return np.asarray(every[ConvexHull(every).vertices])
        except QhullError:  # all in one plane
            return every

    @cached_property
    def size(self) -> Floats:
        """Width, depth, height (3,) [mm]."""
        return np.asarray(self.points.max(axis=0) - self.points.min(axis=0))


@dataclass(frozen=True, eq=False)
class Stance:
    """How a piece is held: the turn (3, 3) from its own axes to the room's, before any heading.

    rest: "upright", "on its back", "on its side"; tilt [rad] from there, toward `onto` (another rest).
    """

    rest: str
    turn: Floats
    tilt: float = 0.0
    onto: str = ""

    @property
    def words(self) -> str:
        """How it is held, in words."""
        if not self.tilt:
            return self.rest
        return f"{self.rest}, tilted {np.degrees(self.tilt):.0f}° toward {self.onto}"

    @property
    def effort(self) -> float:
        """What it costs to hold it so, to choose the easiest by (common practice: upright is easiest)."""
        return EFFORT[self.rest] + (0.5 + float(self.tilt) if self.tilt else 0.0)


EFFORT = {"upright": 0.0, "on its back": 1.0, "on its side": 1.2}


@dataclass(frozen=True, eq=False)
class Pose:
    """Where the piece is: room coordinates = turn (3, 3) @ piece coordinates + at (3,) [mm]."""

    turn: Floats
    at: Floats

    def points(self, points: Floats) -> Floats:
        """Points (n, 3) of the piece in the room [mm]."""
        return np.asarray(points @ self.turn.T + self.at)


class Answer(StrEnum):
    """What came of an obstacle."""

    PASSES = "passes"
    NO = "does not pass"
    NOT_FOUND = "not found"


@dataclass(frozen=True, eq=False)
class Spot:
    """The tightest place: room on each side [mm], what touches first, the pose there as an index."""

    room: float
    what: str
    pose: int = 0


@dataclass(frozen=True, eq=False)
class Passage:
    """What came of one obstacle with one bulk.

    poses: the way through, each straight on from the one before, in the obstacle's own coordinates; empty for a no.
    stance: how it is held; comes, goes: the stance it must be in before and after where that differs.
    spot: the tightest place; missing: how many mm are lacking there in all, 0 when it passes.
    clearance: the least distance of the real parts to what stands round them along the way [mm]; None without a way.
    proof: by what it is known. tried: how many ways of holding were looked at.
    """

    obstacle: Obstacle
    bulk: str
    answer: Answer
    spot: Spot
    stance: Stance | None = None
    poses: tuple[Pose, ...] = ()
    clearance: float | None = None
    missing: float = 0.0
    proof: str = ""
    tried: int = 0
    rolled: bool = False


@dataclass(frozen=True, eq=False)
class Trial:
    """One way of holding at one obstacle, and the room that it leaves.

    side: room on each side [mm]; above: left over the piece when it is held clear of the floor [mm]; error: how much
    both may be told too small; what: what is tightest; lay: lays out the poses of the way, where there is one.
    """

    stance: Stance
    side: float
    above: float
    what: str
    lay: Callable[[], tuple[Pose, ...]]
    error: float = 0.0
    rolled: bool = False

    @property
    def fits(self) -> bool:
        """Whether there is a way at all."""
        return self.side >= 0 and self.above >= 0

    @property
    def least(self) -> float:
        """The tighter of both, for choosing the roomiest [mm]."""
        return min(self.side, self.above)

    @property
    def missing(self) -> float:
        """How many mm are lacking in all: both sides together, or above."""
        return max(-2 * self.side, -self.above, 0.0)
