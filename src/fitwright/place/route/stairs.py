"""Up a flight, seen from the side: over the foot of the slope, along it, over its top; and the turn on a landing.

Seen from the side a flight is two turns like those of passages: at its foot floor and slope are the outer walls and
the edge overhead the inner corner; at its top the ceilings are the outer walls and the last nosing the inner corner.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from fitwright.job.obstacles import Landing, Stairs
from fitwright.place.route.convex import hull, turned
from fitwright.place.route.model import LIFT_MM, Bulk, Pose, Stance, Trial
from fitwright.place.route.placing import Frame, Held, laid, thinned
from fitwright.place.route.stances import about, height, plan, tilt_axis
from fitwright.place.route.straight import PAST, shadow
from fitwright.place.route.turning import Run, Turn

Floats = NDArray[np.float64]

SQUARE = np.pi / 2
OVERHANG_STEP = 4  # headings between looks at what hangs out
MIRROR = np.array([1.0, -1.0])

Walls = tuple[float | None, float | None]
"""How far behind the foot and beyond the top of a flight the next wall stands [mm]; None where it runs on."""


@dataclass(frozen=True, eq=False)
class Flight:
    """A flight of so many steps with a bulk in a stance, its heading (a multiple of a quarter turn) said [rad].

    The piece only pitches about the level line across the stair, so its width there stays.
    """

    stairs: Stairs
    count: int
    bulk: Bulk
    stance: Stance
    heading: float
    walls: Walls = (None, None)
    steps: int = 720

    @property
    def slope(self) -> float:
        """Slope of the nosings [rad]."""
        return float(np.arctan2(self.stairs.rise, self.stairs.run))

    @cached_property
    def turn(self) -> Floats:
        """From the piece's axes to the stair's (3, 3), level."""
        return about(2, self.heading) @ self.stance.turn

    @cached_property
    def middle(self) -> Floats:
        """Middle (3,) of the box round it, in the stair's directions [mm]."""
        points = self.bulk.points @ self.turn.T
        return np.asarray((points.max(axis=0) + points.min(axis=0)) / 2)

    @cached_property
    def width(self) -> float:
        """Across the stair [mm]."""
        return float(np.ptp(self.bulk.points @ self.turn[0]))

    @cached_property
    def length(self) -> float:
        """Along the stair, level [mm]."""
        return float(np.ptp(self.bulk.points @ self.turn[1]))

    @property
    def on_landing(self) -> float:
        """Room before and behind it on the shorter landing at an end of the flight [mm]."""
        return min(((wall - self.length) / 2 for wall in self.walls if wall is not None), default=np.inf)

    @cached_property
    def profile(self) -> Floats:
        """Outline (k, 2) seen from the side, (along, up) about its middle [mm]."""
        return hull((self.bulk.points @ self.turn.T - self.middle)[:, 1:])

    @cached_property
    def foot(self) -> Turn:
        """The turn from the floor onto the slope, mirrored so that it turns to the right."""
        head, slope = self.stairs.headroom - LIFT_MM, self.slope
        return Turn(self.profile * MIRROR, head, head * np.cos(slope), slope, self.steps)

    @cached_property
    def top(self) -> Turn:
        """The turn from the slope onto the floor above."""
        head, slope = self.stairs.headroom - LIFT_MM, self.slope
        return Turn(self.profile, head * np.cos(slope), head, slope, self.steps)

    def runs(self) -> tuple[Run, Run]:
        """Pitches over the foot and over the top, level before and after, both through one pitch on the slope."""
        best: tuple[Run, Run] | None = None
        for pitch in self._pitches():
            foot = self.foot.best(self._only(SQUARE), self._only(SQUARE - pitch))
            top = self.top.best(self._only(pitch + SQUARE - self.slope), self._only(SQUARE - self.slope))
            if best is None or min(foot.room, top.room) > min(best[0].room, best[1].room):
                best = (foot, top)
        assert best is not None
        return best

    def poses(self, foot: Run, top: Run) -> tuple[Pose, ...]:
        """From the floor before it to the floor above."""
        stairs = self.stairs
        length = float(np.hypot(*self.profile.T).max()) + PAST
        last = np.array([(self.count - 1) * stairs.run, self.count * stairs.rise])
        low = [self._foot_pose(place, pitch) for place, pitch in self._pitched(self.foot, foot, np.zeros(self.steps))]
        # the ceiling meets the slope overhead over the last nosing; it is carried as low as there
        corner = last + np.array([0.0, stairs.headroom])
        high = [
            self._top_pose(place, pitch, corner)
            for place, pitch in self._pitched(self.top, top, self._low_over_top(top))
        ]
        begin = Pose(low[0].turn, low[0].at - np.array([0.0, length, 0.0]))
        end = Pose(high[-1].turn, high[-1].at + np.array([0.0, length, 0.0]))
        if self.walls[0] is not None:
            begin = self._level(low[0], -self.length / 2 - self._spare(self.walls[0]))
        if self.walls[1] is not None:
            end = self._level(high[-1], last[0] + self.length / 2 + self._spare(self.walls[1]))
        return (self._down(begin), begin, *low, *high, end)

    def _down(self, pose: Pose) -> Pose:
        """The same on the floor."""
        return Pose(pose.turn, pose.at - np.array([0.0, 0.0, self.stairs.rise]))

    def _level(self, pose: Pose, along: float) -> Pose:
        """A pose moved along until the middle of the piece is there."""
        middle = float((pose.turn @ self.turn.T @ self.middle + pose.at)[1])
        return Pose(pose.turn, pose.at + np.array([0.0, along - middle, 0.0]))

    def _spare(self, wall: float) -> float:
        """How far from the edge of a landing it is set down [mm]."""
        return min(PAST, max(wall - self.length, 0.0) / 2)

    def _low_over_top(self, run: Run) -> Floats:
        """How far under the ceilings (n,) it is carried over the top: low on the slope first, low on the floor last."""
        off, first, last = self.top.inmost.copy(), int(run.indices[0]), int(run.indices[-1])
        off[first] = min(off[first], 2 * self.top.in_first[first])
        off[last] = min(off[last], 2 * self.top.in_second[last])
        return off

    def _pitched(self, turn: Turn, run: Run, off: Floats) -> list[tuple[Floats, float]]:
        """Places and headings along a run, so far off the outer walls (n,) that it is carried low."""
        shown = thinned([int(one) for one in run.indices], turn.steps)
        headings = np.unwrap([float(turn.headings[index]) for index in shown])
        return [
            (turn.place(index, max(float(off[index]), 0.0)), float(heading))
            for index, heading in zip(shown, headings, strict=True)
        ]

    def _foot_pose(self, place: Floats, heading: float) -> Pose:
        """Out of the mirrored plane of the foot's turn; carried a step high, so that the corner is the first nosing."""
        along, down = turned(place[None], -SQUARE)[0]
        return self._pose(SQUARE - heading, float(along), self.stairs.rise + LIFT_MM - float(down))

    def _top_pose(self, place: Floats, heading: float, corner: Floats) -> Pose:
        along, up = turned(place[None], self.slope - SQUARE)[0] + corner
        return self._pose(heading + self.slope - SQUARE, float(along), float(up))

    def _pose(self, pitch: float, along: float, up: float) -> Pose:
        pitched = about(0, pitch)
        return Pose(pitched @ self.turn, np.array([0.0, along, up]) - pitched @ self.middle)

    def _pitches(self) -> tuple[float, ...]:
        return (0.0, self.slope / 2, self.slope)

    def _only(self, heading: float) -> NDArray[np.bool_]:
        mask = np.zeros(self.steps, dtype=bool)
        mask[round(heading / (2 * np.pi) * self.steps) % self.steps] = True
        return mask


def flight_trials(one: Stairs, count: int, walls: Walls, bulk: Bulk, stance: Stance) -> list[Trial]:
    """A flight with either end or either side first; a tilted piece only in the plane of its tilt."""
    axis = tilt_axis(stance)
    headings = (0.0, np.pi) if axis == 0 else (SQUARE, -SQUARE)
    if not stance.tilt:
        headings = (0.0, SQUARE)
    return [_trial(Flight(one, count, bulk, stance, heading, walls)) for heading in headings]


def _trial(flight: Flight) -> Trial:
    side, ends = (flight.stairs.width - flight.width) / 2, flight.on_landing
    if min(side, ends) < 0 and flight.stance.tilt:  # no way, and the rests say better how much is missing
        return Trial(flight.stance, min(side, ends), -np.inf, _TIGHT_AT[ends < side], lambda: ())
    foot, top = flight.runs()
    room = min(foot.room, top.room)
    return Trial(
        flight.stance,
        min(side, ends) if ends < 0 else side,
        2 * room,
        "the slope overhead" if room < min(side, ends) else _TIGHT_AT[ends < side],
        lambda: flight.poses(foot, top),
        2 * flight.top.error,
    )


_TIGHT_AT = {True: "the landing", False: "the walls of the stair"}


def landing_trial(one: Stairs, landing: Landing, bulk: Bulk, stance: Stance) -> Trial:
    """The quarter turn on a landing, held level: its tail may hang over the flight below, its head over the one above.

    Where it hangs out above, it is held so much higher; where it hangs out below, there is so much less overhead.
    """
    outline = plan(bulk, stance)
    turn = Turn(outline, min(one.width, landing.width), min(one.width, landing.length), SQUARE)
    run = turn.best()
    slope = one.rise / one.run
    tail, head = _overhangs(turn, run, landing)
    lift = LIFT_MM + (head * slope + one.rise if head > 0 else 0.0)
    held = Held(bulk, stance, lift)
    return Trial(
        stance,
        run.room,
        one.headroom - tail * slope - height(bulk, stance) - lift,
        "the turn on the landing",
        lambda: laid(held, turn, run, Frame(), 0.0, 0.0),
        turn.error,
    )


def across_trial(one: Stairs, landing: Landing, bulk: Bulk, stance: Stance) -> Trial:
    """Set across a landing where the stair turns back on itself: it goes on with its other end first."""
    seen = shadow(plan(bulk, stance))
    rooms = np.minimum((landing.length - seen.lengths) / 2, (min(one.width, landing.width) - seen.widths) / 2)
    at = int(np.argmax(rooms))
    held, heading = Held(bulk, stance, LIFT_MM), float(seen.headings[at])
    y, first = -landing.length / 2, one.width / 2
    return Trial(
        stance,
        float(rooms[at]),
        one.headroom - height(bulk, stance) - LIFT_MM,
        "the landing",
        lambda: tuple(held.at(x, y, heading) for x in (first, landing.width / 2, landing.width - first)),
    )


def _overhangs(turn: Turn, run: Run, landing: Landing) -> tuple[float, float]:
    """How far it hangs out over the flight below and over the flight above while it turns [mm]."""
    tail = head = 0.0
    for place, heading in (
        (turn.place(int(i), max(run.room, 0.0)), float(turn.headings[i])) for i in run.indices[::OVERHANG_STEP]
    ):
        seen = turned(turn.outline, heading) + place
        tail = max(tail, -landing.length - float(seen[:, 1].min()))
        head = max(head, float(seen[:, 0].max()) - landing.width)
    return tail, head
