"""Poses of a piece held in a stance: by heading and place on plan, or by pitch in the plane of a stair."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from fitwright.place.route.model import LIFT_MM, Bulk, Pose, Stance
from fitwright.place.route.stances import about, shadow_middle
from fitwright.place.route.turning import Run, Turn

Floats = NDArray[np.float64]

SHOWN_STEP_RAD = np.radians(3)


@dataclass(frozen=True, eq=False)
class Held:
    """A bulk in a stance, `lift` above the floor [mm], to be put down on plan."""

    bulk: Bulk
    stance: Stance
    lift: float

    def at(self, x: float, y: float, heading: float) -> Pose:
        """The pose with the shadow's middle at (x, y), turned to a heading [rad]."""
        turn = about(2, heading) @ self.stance.turn
        middle = about(2, heading)[:2, :2] @ shadow_middle(self.bulk, self.stance)
        low = float((self.bulk.points @ self.stance.turn[2]).min())
        return Pose(turn, np.array([x - middle[0], y - middle[1], self.lift - low]))


def lift_of(bulk: Bulk, stance: Stance) -> float:
    """How far above the floor it is held: not at all when it rolls [mm]."""
    return 0.0 if rolls(bulk, stance) else LIFT_MM


def rolls(bulk: Bulk, stance: Stance) -> bool:
    """Whether it goes on its own casters."""
    return bulk.rolls and stance.rest == "upright" and not stance.tilt


@dataclass(frozen=True, eq=False)
class Frame:
    """Where a turn's own plane lies on an obstacle's plan: turned by `angle` [rad], its origin at (x, y) [mm]."""

    angle: float = 0.0
    x: float = 0.0
    y: float = 0.0

    def out(self, place: Floats) -> tuple[float, float]:
        """A place (2,) of the turn's plane, on the plan."""
        cos, sin = np.cos(self.angle), np.sin(self.angle)
        return float(self.x + cos * place[0] - sin * place[1]), float(self.y + sin * place[0] + cos * place[1])


def thinned(indices: Sequence[int], steps: int) -> list[int]:
    """Headings every few degrees, with both ends."""
    every = max(int(SHOWN_STEP_RAD / (2 * np.pi) * steps), 1)
    kept = list(indices[::every])
    return kept if kept[-1] == indices[-1] else [*kept, indices[-1]]


def laid(held: Held, turn: Turn, run: Run, frame: Frame, before: float, after: float) -> tuple[Pose, ...]:
    """A run of headings as poses, begun so far before the corner and ended so far behind it [mm]."""
    places = list(_places(turn, run))
    back, on = np.array([0.0, -before]), turn.onward * after
    first, last = places[0], places[-1]
    if before:
        places = [(first[0] + back, first[1]), *places]
    if after:
        places = [*places, (last[0] + on, last[1])]
    return tuple(held.at(*frame.out(place), heading + frame.angle) for place, heading in _unwound(places))


def _places(turn: Turn, run: Run) -> Iterable[tuple[Floats, float]]:
    room = max(run.room, 0.0)
    for index in thinned([int(one) for one in run.indices], turn.steps):
        yield turn.place(index, room), float(turn.headings[index])


def _unwound(places: Sequence[tuple[Floats, float]]) -> list[tuple[Floats, float]]:
    headings = np.unwrap([heading for _, heading in places])
    return [(place, float(heading)) for (place, _), heading in zip(places, headings, strict=True)]
