"""The route in legs, each looked at by itself: a stair with a landing is three."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass

import numpy as np

from fitwright.job.obstacles import Corner, Corridor, Door, Landing, Lift, Obstacle, Stairs, Step, Van
from fitwright.place.route.corners import SQUARE, corner_trial, door_turn_trial
from fitwright.place.route.model import Bulk, Stance, Trial
from fitwright.place.route.stairs import Walls, across_trial, flight_trials, landing_trial
from fitwright.place.route.straight import corridor_trial, door_trial, into_trial, step_trial, straight_door_trial
from fitwright.place.route.world import Block, blocks, flight, landing_blocks

Tried = Callable[[Bulk, Stance], list[Trial]]


@dataclass(frozen=True, eq=False)
class Leg:
    """One stretch of the way.

    number: of the obstacle, from 0; name: in words; trials: gives the ways through in a stance; around: what stands
    there; ceiling: height known there, for turning the piece over [mm]; slope: extra tilts worth trying [rad].
    narrowest: the least opening of it [mm], which nothing solid and larger gets through.
    """

    number: int
    obstacle: Obstacle
    name: str
    kind: str
    trials: Tried
    around: Callable[[], tuple[Block, ...]]
    narrowest: float
    ceiling: float | None = None
    slope: tuple[float, ...] = ()


def legs(route: Sequence[Obstacle]) -> tuple[Leg, ...]:
    """Every leg, in order."""
    return tuple(leg for number, one in enumerate(route) for leg in _legs(number, one))


def _legs(number: int, one: Obstacle) -> Iterable[Leg]:
    around = lambda: blocks(one)  # noqa: E731
    match one:
        case Door():
            yield Leg(number, one, one.name, "door", lambda b, s: _door(one, b, s), around, min(one.clear, one.height))
        case Corridor():
            yield Leg(number, one, one.name, "corridor", lambda b, s: [corridor_trial(one, b, s)], around,
                      min(one.width, one.height), one.height)  # fmt: skip
        case Corner():
            yield Leg(number, one, one.name, "corner", lambda b, s: [corner_trial(one, b, s)], around,
                      min(one.first, one.second, one.height), one.height)  # fmt: skip
        case Lift() | Van():
            kind = "lift" if isinstance(one, Lift) else "van"
            narrow = min(one.door_width, one.door_height, one.width, one.height)
            yield Leg(number, one, one.name, kind, lambda b, s: [into_trial(one, b, s)], around, narrow)
        case Step():
            yield Leg(number, one, one.name, "step", lambda b, s: [step_trial(one, b, s)], around, np.inf)
        case Stairs():
            yield from _stairs(number, one)
        case _:
            raise AssertionError(f"{type(one).__name__} is no obstacle")


def _door(one: Door, bulk: Bulk, stance: Stance) -> list[Trial]:
    if one.before is None and one.after is None:
        return [door_trial(one, bulk, stance)]
    straight = straight_door_trial(one, bulk, stance)
    if straight is not None and straight.fits:
        return [straight]
    turned = door_turn_trial(one, bulk, stance)
    return [trial for trial in (straight, turned) if trial is not None]


def _stairs(number: int, one: Stairs) -> Iterable[Leg]:
    slope = float(np.arctan2(one.rise, one.run))
    narrow = min(one.width, one.headroom)
    landing = one.landing

    def up(count: int, name: str, walls: Walls = (None, None)) -> Leg:
        return Leg(number, one, name, "stairs", lambda b, s: flight_trials(one, count, walls, b, s),
                   lambda: flight(one, count, walls), narrow, one.headroom, (slope,))  # fmt: skip

    if landing is None:
        yield up(one.steps, one.name)
        return
    turns = landing.turn > 0
    far = (landing.length, landing.width if landing.turn < SQUARE * 1.5 else landing.length) if turns else (None, None)
    yield up(landing.after, f"{one.name}, to the landing", (None, far[0]))
    if turns:
        yield Leg(number, one, f"{one.name}, on the landing", "landing", lambda b, s: [_turn(one, landing, b, s)],
                  lambda: landing_blocks(one, landing), narrow, one.headroom)  # fmt: skip
    yield up(one.steps - landing.after, f"{one.name}, from the landing", (far[1], None))


def _turn(one: Stairs, landing: Landing, bulk: Bulk, stance: Stance) -> Trial:
    if landing.turn > SQUARE * 1.5:
        return across_trial(one, landing, bulk, stance)
    return landing_trial(one, landing, bulk, stance)
