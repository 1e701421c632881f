"""Every step of a way held against what stands round it: exact distances, at the steps and between them."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import cached_property, lru_cache
from typing import Any

import numpy as np
from numpy.typing import NDArray

from fitwright.place.route.model import Bulk, Pose
from fitwright.place.route.world import Block

Floats = NDArray[np.float64]

FINEST_MM = 0.5  # of movement between two looks
MOST_LOOKS = 4000
UNDERFOOT = "step"  # how blocks are called that the piece is carried over
Stop = Callable[[], bool]
Named = Sequence[tuple[str, Any]]


@dataclass(frozen=True, eq=False)
class Proof:
    """What the look at a way found: whether it is free, and the least distance at a pose [mm], to what, at which.

    Steps that it is carried over do not count as near, where there is anything else; to be free it must clear them too.
    """

    free: bool
    least: float
    what: str
    at: int
    looks: int


class Proving:
    """A bulk among blocks.

    A step is free when the distance half way is more than half of the farthest that any point moves in it; else it is
    looked at in two halves. Distances are those of convex bodies to convex bodies.
    Source: conservative advancement as in B. Mirtich, Impulse-based dynamic simulation of rigid body systems (1996).
    """

    def __init__(self, bulk: Bulk, blocks: Sequence[Block]) -> None:
        self.bulk = bulk
        self.blocks = [(block.what, _object(block.corners)) for block in blocks]
        self.beside = [one for one in self.blocks if not one[0].startswith(UNDERFOOT)] or self.blocks
        self.looks = 0

    def along(self, poses: Sequence[Pose], stop: Stop = lambda: False) -> Proof:
        """The way through all the poses."""
        least, what, at = np.inf, "", 0
        for index, pose in enumerate(poses):
            distance, touched = self.distance(pose)
            near = self.distance(pose, self.beside) if distance > 0 else (distance, touched)
            if near[0] < least:
                least, what, at = *near, index
            if distance <= 0 or self.looks > MOST_LOOKS or stop():
                return Proof(False, least, what, at, self.looks)
        for index in range(len(poses) - 1):
            if not self._between(poses[index], poses[index + 1], stop):
                return Proof(False, least, what, index, self.looks)
        return Proof(True, least, what, at, self.looks)

    def distance(self, pose: Pose, among: Named | None = None) -> tuple[float, str]:
        """The least distance at a pose [mm], and to what, among all or some blocks; 0 where something touches."""
        self.looks += 1
        blocks = self.blocks if among is None else among
        whole = self._least(self._whole, pose, blocks)
        if whole[0] > 0:
            return whole
        return min((self._least(part, pose, blocks) for part in self._parts), key=lambda found: found[0])

    def nearest(self, pose: Pose) -> Floats:
        """The two points (2, 3) of the bulk and of a block that are nearest to one another at a pose [mm]."""
        import fcl

        bodies = [self._whole] if self._least(self._whole, pose, self.blocks)[0] > 0 else self._parts
        best, found = np.inf, np.zeros((2, 3))
        for body in bodies:
            body.setTransform(fcl.Transform(pose.turn, pose.at))
            for _, block in self.blocks:
                result = fcl.DistanceResult()
                distance = fcl.distance(body, block, fcl.DistanceRequest(enable_nearest_points=True), result)
                if distance < best:
                    best, found = distance, np.array(result.nearest_points)
        return found

    def _between(self, one: Pose, other: Pose, stop: Stop) -> bool:
        moved = self._moved(one, other)
        if moved < FINEST_MM:
            return True
        if self.looks > MOST_LOOKS or stop():
            return False
        middle = halfway(one, other)
        distance, _ = self.distance(middle)
        if distance <= 0:
            return False
        return distance > moved / 2 or (self._between(one, middle, stop) and self._between(middle, other, stop))

    def _moved(self, one: Pose, other: Pose) -> float:
        """The farthest that any of its points goes from one pose to the other [mm]."""
        points = self.bulk.points
        straight = float(np.linalg.norm(one.points(points) - other.points(points), axis=1).max())
        turn = float(np.arccos(np.clip((np.trace(one.turn.T @ other.turn) - 1) / 2, -1.0, 1.0)))
        return straight * (turn / 2 / np.sin(turn / 2) if turn > 1e-6 else 1.0)

    def _least(self, body: Any, pose: Pose, blocks: Named) -> tuple[float, str]:
        import fcl

        body.setTransform(fcl.Transform(pose.turn, pose.at))
        return min(((_distance(body, block), what) for what, block in blocks), key=lambda found: found[0])

    @cached_property
    def _whole(self) -> Any:
        return _body(self.bulk)

    @cached_property
    def _parts(self) -> list[Any]:
        return _bodies(self.bulk)


@lru_cache(maxsize=16)
def _body(bulk: Bulk) -> Any:
    return _object(bulk.points)


@lru_cache(maxsize=16)
def _bodies(bulk: Bulk) -> list[Any]:
    return [_object(lump.corners) for lump in bulk.lumps]


def halfway(one: Pose, other: Pose) -> Pose:
    """The pose half way, turned half of the way and its middle straight between."""
    return between(one, other, 0.5)


def between(one: Pose, other: Pose, share: float) -> Pose:
    """The pose a share of the way on, turning evenly."""
    from scipy.spatial.transform import Rotation

    step = Rotation.from_matrix(other.turn @ one.turn.T).as_rotvec()
    turn = Rotation.from_rotvec(share * step).as_matrix() @ one.turn
    return Pose(turn, one.at + share * (other.at - one.at))


def _distance(one: Any, other: Any) -> float:
    import fcl

    result = fcl.DistanceResult()
    return max(float(fcl.distance(one, other, fcl.DistanceRequest(), result)), 0.0)


def _object(corners: Floats) -> Any:
    """A convex body of the collision library."""
    import fcl
    from scipy.spatial import ConvexHull

    found = ConvexHull(corners)
    kept = found.vertices
    number = np.full(len(corners), -1)
    number[kept] = np.arange(len(kept))
    faces = number[found.simplices]
    listed = np.hstack([np.full((len(faces), 1), 3), faces]).ravel().astype(np.int64)
    return fcl.CollisionObject(fcl.Convex(corners[kept], len(faces), listed), fcl.Transform())
