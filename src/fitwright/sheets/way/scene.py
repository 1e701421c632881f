"""What one picture of a leg shows: walls cut to a window, the piece at steps along its way, the tightest gap."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from fitwright.job.obstacles import Stairs, Step
from fitwright.place.route import Passage
from fitwright.place.route.convex import hull
from fitwright.place.route.grips import Hold
from fitwright.place.route.legs import Leg
from fitwright.place.route.model import Bulk, Pose
from fitwright.place.route.proving import Proving, between
from fitwright.place.route.world import Block

Floats = NDArray[np.float64]
View = Literal["plan", "side"]

AXES: dict[View, tuple[int, int]] = {"plan": (0, 1), "side": (1, 2)}
ROUND = 420.0  # what is shown of the walls past the piece's way [mm]
EYE = 600.0  # a block that reaches through this height is a wall on plan [mm]
LEAST = 2.0  # a gap smaller than this is not drawn [mm]
OVERHEAD = ("the ceiling", "the slope overhead", "the top", "the door head", "the door's head")
OVER = 250.0  # more shown overhead in a picture from the side [mm]
NO_HANDS: Floats = np.zeros((0, 3))
FLOOR = 100.0  # how much of the floor is shown in section [mm]


@dataclass(frozen=True, eq=False)
class Shown:
    """The piece at one step: its outline (k, 2), those of its convex parts, and where hands hold it (h, 2) [mm]."""

    outline: Floats
    parts: tuple[Floats, ...]
    hands: Floats


@dataclass(frozen=True, eq=False)
class Wall:
    """What stands there: an outline (k, 2) [mm], cut through (hatched) or only seen."""

    outline: Floats
    cut: bool
    what: str


@dataclass(frozen=True, eq=False)
class Scene:
    """One picture. window: low and high corner (2, 2) [mm]; gap: the tightest, between two points (2, 2), None if none.

    spot: which of the steps is the tightest.
    """

    view: View
    window: Floats
    walls: tuple[Wall, ...]
    steps: tuple[Shown, ...]
    spot: int
    gap: Floats | None


def hands_of(holds: Sequence[Hold]) -> Floats:
    """Where hands hold it (h, 3), in the piece's coordinates [mm]."""
    return np.array([one.at for one in holds]).reshape(-1, 3)


def view_of(leg: Leg) -> View:
    """From the side where height is what matters, else from above."""
    side = isinstance(leg.obstacle, (Stairs, Step)) and leg.kind != "landing"
    return "side" if side else "plan"


def scene_of(
    leg: Leg, passage: Passage, bulk: Bulk, count: int, *, hands: Floats = NO_HANDS, parts: bool = True
) -> Scene | None:
    """The picture with the piece at so many steps along its way; None where there is no way to show.

    hands: where it is held (h, 3), in its own coordinates; parts: show them at every step, not at the tightest alone.
    """
    if len(passage.poses) < 2:
        return None
    seen = view_of(leg)
    poses, spot = along(passage.poses, bulk, count, passage.spot.pose)
    steps = tuple(shown(bulk, pose, seen, hands, parts or at == spot) for at, pose in enumerate(poses))
    points = np.vstack([step.outline for step in steps])
    window = np.stack([points.min(axis=0) - ROUND, points.max(axis=0) + ROUND])
    if seen == "side":
        window[0, 1] = min(window[0, 1], -FLOOR)
        window[1, 1] += OVER
    if seen == "plan" and leg.kind == "landing":
        window = np.stack([np.minimum(window[0], -ROUND / 2), window[1]])
    blocks = leg.around()
    walls = tuple(wall for block in blocks if (wall := _wall(block, seen, window)) is not None)
    return Scene(seen, window, walls, steps, spot, _gap(passage, blocks, bulk, seen))


def along(poses: Sequence[Pose], bulk: Bulk, count: int, spot: int) -> tuple[list[Pose], int]:
    """Poses at even steps of movement, the first and the last with them, and which is nearest to pose `spot`."""
    moved = [0.0, *np.cumsum([_moved(one, other, bulk) for one, other in pairwise(poses)])]
    wanted = np.linspace(0.0, moved[-1], count)
    found = [_at(poses, moved, float(way)) for way in wanted]
    return found, int(np.argmin(np.abs(wanted - moved[min(spot, len(moved) - 1)])))


def _at(poses: Sequence[Pose], moved: Sequence[float], way: float) -> Pose:
    after = min(max(int(np.searchsorted(moved, way)), 1), len(poses) - 1)
    step = moved[after] - moved[after - 1]
    return between(poses[after - 1], poses[after], (way - moved[after - 1]) / step if step > 0 else 0.0)


def _moved(one: Pose, other: Pose, bulk: Bulk) -> float:
    return float(np.linalg.norm(one.points(bulk.points) - other.points(bulk.points), axis=1).max())


def shown(bulk: Bulk, pose: Pose, view: View, hands: Floats, with_parts: bool) -> Shown:
    """The piece at a pose, seen from above or from the side."""
    axes = list(AXES[view])
    parts = tuple(hull(pose.points(lump.corners)[:, axes]) for lump in bulk.lumps) if with_parts else ()
    return Shown(hull(pose.points(bulk.points)[:, axes]), parts, pose.points(hands)[:, axes])


def _wall(block: Block, view: View, window: Floats) -> Wall | None:
    low, high = block.corners.min(axis=0), block.corners.max(axis=0)
    if view == "plan":
        if low[2] > EYE or block.what.startswith(OVERHEAD):
            return None
        cut = bool(high[2] > EYE and low[2] <= EYE)
    else:
        if low[0] > 0 or high[0] < 0 or block.what.startswith("step"):
            return None
        cut = True
    outline = clipped(hull(block.corners[:, list(AXES[view])]), window)
    return Wall(outline, cut, block.what) if len(outline) > 2 else None


def nosings(leg: Leg, window: Floats) -> Floats:
    """The line of floor and steps (k, 2) of a flight or a step seen from the side [mm], within a window."""
    one = leg.obstacle
    steps = [block.corners for block in leg.around() if block.what.startswith("step") or block.what == "the step"]
    if not steps or not isinstance(one, (Stairs, Step)):
        return np.array([[window[0, 0], 0.0], [window[1, 0], 0.0]])
    line = [[window[0, 0], 0.0]]
    for corners in steps:
        low, high = corners.min(axis=0), corners.max(axis=0)
        line += [[float(low[1]), float(low[2])], [float(low[1]), float(high[2])]]
    return np.array([*line, [window[1, 0], line[-1][1]]])


def clipped(outline: Floats, window: Floats) -> Floats:
    """A convex outline (k, 2) cut to a window; empty when it lies outside.

    Source: I. E. Sutherland and G. W. Hodgman, Reentrant polygon clipping, CACM 17 (1974).
    """
    kept = outline
    for axis in (0, 1):
        for sign, bound in ((1.0, window[0, axis]), (-1.0, -window[1, axis])):
            kept = _one_side(kept, axis, sign, float(bound))
            if not len(kept):
                return np.zeros((0, 2))
    return kept


def _one_side(outline: Floats, axis: int, sign: float, bound: float) -> Floats:
    found = []
    for start, end in zip(outline, np.roll(outline, -1, axis=0), strict=True):
        before, after = sign * start[axis] - bound, sign * end[axis] - bound
        if before >= 0:
            found.append(start)
        if before * after < 0:
            found.append(start + before / (before - after) * (end - start))
    return np.array(found).reshape(-1, 2)


def _gap(passage: Passage, blocks: Sequence[Block], bulk: Bulk, view: View) -> Floats | None:
    """The two points that come nearest to one another at the tightest spot, as the picture shows them."""
    at = passage.poses[min(passage.spot.pose, len(passage.poses) - 1)]
    near = [block for block in blocks if block.what == passage.spot.what]
    if not near:
        return None
    points = Proving(bulk, near).nearest(at)
    seen = points[:, list(AXES[view])]
    return seen if float(np.linalg.norm(seen[0] - seen[1])) > LEAST else None
