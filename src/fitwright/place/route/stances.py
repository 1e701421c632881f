"""The ways in which a piece can be held: at rest on a face, or tilted from one rest toward another."""

from __future__ import annotations

from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from fitwright.place.route.convex import hull
from fitwright.place.route.model import Bulk, Stance

Floats = NDArray[np.float64]

TILT_STEP_RAD = np.radians(5)
LEAST_TILT = np.radians(0.5)
QUARTER = np.pi / 2
KEPT = 2000  # shadows and heights that are remembered

# from the piece's own axes: lying on its back its depth stands up; on its side its width does
UPRIGHT = np.eye(3)
ON_BACK = np.array([[1.0, 0, 0], [0, 0, 1], [0, -1, 0]])
ON_SIDE = np.array([[0.0, 0, -1], [0, 1, 0], [1, 0, 0]])
RESTS = {"upright": UPRIGHT, "on its back": ON_BACK, "on its side": ON_SIDE}
# by pair of rests: the room's axis about which the first is tilted toward the second
TILTS = (
    ("upright", "on its back", 0, -1.0),
    ("upright", "on its side", 1, -1.0),
    ("on its back", "on its side", 1, -1.0),
)


def about(axis: int, angle: float) -> Floats:
    """Turn (3, 3) about a room axis 0, 1 or 2, counterclockwise seen against it [rad]."""
    cos, sin = np.cos(angle), np.sin(angle)
    one, two = [(1, 2), (2, 0), (0, 1)][axis]
    turn = np.eye(3)
    turn[one, one], turn[one, two], turn[two, one], turn[two, two] = cos, -sin, sin, cos
    return turn


@lru_cache(maxsize=1)
def rests() -> tuple[Stance, ...]:
    """Upright, on its back, on its side."""
    return tuple(Stance(name, turn) for name, turn in RESTS.items())


@lru_cache(maxsize=64)
def tilted(extra: tuple[float, ...] = ()) -> tuple[Stance, ...]:
    """Tilts from each rest toward the others, every few degrees and at the extra angles [rad] and what they leave."""
    angles = {round(float(angle), 6) for angle in np.arange(TILT_STEP_RAD, QUARTER - LEAST_TILT, TILT_STEP_RAD)}
    angles |= {round(angle, 6) for one in extra for angle in (one, QUARTER - one) if LEAST_TILT < angle < QUARTER}
    found = []
    for start, finish, axis, way in TILTS:
        for angle in sorted(angles):
            turn = about(axis, way * angle) @ RESTS[start]
            if angle <= QUARTER / 2 + 1e-9:
                found.append(Stance(start, turn, angle, finish))
            else:
                found.append(Stance(finish, turn, QUARTER - angle, start))
    return tuple(found)


def every_stance(extra: tuple[float, ...] = ()) -> tuple[Stance, ...]:
    """All of them, the easiest first."""
    return tuple(sorted((*rests(), *tilted(extra)), key=lambda one: one.effort))


def tilt_axis(stance: Stance) -> int:
    """The room's axis about which a tilted stance was tilted; 0 for one at rest."""
    pair = {stance.rest, stance.onto}
    return next((axis for start, finish, axis, _ in TILTS if pair == {start, finish}), 0)


@lru_cache(maxsize=KEPT)
def height(bulk: Bulk, stance: Stance) -> float:
    """How high it stands when held so [mm]."""
    up = bulk.points @ stance.turn[2]
    return float(up.max() - up.min())


@lru_cache(maxsize=KEPT)
def plan(bulk: Bulk, stance: Stance) -> Floats:
    """Its shadow from above: corners (n, 2) about the shadow's own middle [mm]."""
    flat = hull((bulk.points @ stance.turn.T)[:, :2])
    return flat - shadow_middle(bulk, stance)


@lru_cache(maxsize=KEPT)
def shadow_middle(bulk: Bulk, stance: Stance) -> Floats:
    """Middle (2,) of the box round its shadow [mm], about which headings turn."""
    flat = (bulk.points @ stance.turn.T)[:, :2]
    return np.asarray((flat.max(axis=0) + flat.min(axis=0)) / 2)


@lru_cache(maxsize=KEPT)
def tallest_when_turned(bulk: Bulk, start: str, finish: str) -> float:
    """Height needed to turn it over from one rest to another about its edge [mm]: the diagonal of its profile.

    Every tilt between is passed. Two corners stand highest over one another where the line between them is plumb, if
    that is on the way, else at one of the rests.
    """
    axis, way, first = next((axis, way, one) for one, two, axis, way in TILTS if {one, two} == {start, finish})
    stood = bulk.points @ RESTS[first].T
    sign = -way if axis == 0 else way
    profile = hull(stood[:, [1 if axis == 0 else 0, 2]] * np.array([-sign, 1.0]))  # (level, up), tilted by cos, sin
    apart = (profile[:, None, :] - profile[None, :, :]).reshape(-1, 2)
    on_the_way = (apart[:, 0] >= 0) & (apart[:, 1] >= 0)
    return float(max(np.abs(apart).max(), np.hypot(*apart[on_the_way].T).max()))
