"""Straight through: a corridor, a door, a van and a lift car that it goes into without turning."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from fitwright.job.obstacles import Corridor, Door, Lift, Step, Van
from fitwright.place.route.convex import directions, hull, normals
from fitwright.place.route.model import LIFT_MM, Bulk, Pose, Stance, Trial
from fitwright.place.route.placing import Held, lift_of, rolls
from fitwright.place.route.stances import height, plan
from fitwright.place.route.world import ARCH_FROM, SILL

Floats = NDArray[np.float64]

PAST = 100.0  # how far short of an obstacle a way begins, and past it it ends [mm]


@dataclass(frozen=True, eq=False)
class Shadow:
    """Widths and lengths of an outline (k, 2) at the headings at which an edge of it runs straight on [mm]."""

    headings: Floats
    widths: Floats
    lengths: Floats


def shadow(outline: Floats) -> Shadow:
    """The headings at which its width can be least: an edge along the way, or, for a point, any."""
    across = normals(outline)
    angles = np.arctan2(across[:, 1], across[:, 0]) if len(across) else np.zeros(1)
    reach = outline @ directions(angles).T
    on = outline @ directions(angles + np.pi / 2).T
    headings = np.mod(-angles + np.pi / 2, np.pi) - np.pi / 2  # this edge runs along the way, y
    return Shadow(headings, np.ptp(reach, axis=0), np.ptp(on, axis=0))


def corridor_trial(one: Corridor, bulk: Bulk, stance: Stance) -> Trial:
    """Along a passage, at the heading at which it is narrowest."""
    return _narrowest(one.width, one.height, one.length, "the walls", bulk, stance)


def door_trial(one: Door, bulk: Bulk, stance: Stance) -> Trial:
    """Straight through a door, with room for it before and behind."""
    return _narrowest(one.clear, one.height, one.jamb, "the door", bulk, stance)


def _narrowest(wide: float, high: float, deep: float, against: str, bulk: Bulk, stance: Stance) -> Trial:
    """Straight through something of a width, height and depth [mm], at the heading at which the piece is narrowest."""
    seen = shadow(plan(bulk, stance))
    at = int(np.argmin(seen.widths))
    held = Held(bulk, stance, lift_of(bulk, stance))
    reach = float(seen.lengths[at]) / 2 + PAST
    return Trial(
        stance,
        (wide - float(seen.widths[at])) / 2,
        high - height(bulk, stance) - held.lift,
        against,
        lambda: _straight(held, float(seen.headings[at]), -reach, deep + reach),
        rolled=rolls(bulk, stance),
    )


def straight_door_trial(one: Door, bulk: Bulk, stance: Stance) -> Trial | None:
    """Straight through a door between walls near it, at the heading with the most room; None when it is too long."""
    seen = shadow(plan(bulk, stance))
    short = np.ones(len(seen.lengths), dtype=bool)
    for free in (one.before, one.after):
        if free is not None:
            short &= seen.lengths <= free
    if not short.any():
        return None
    at = int(np.argmin(np.where(short, seen.widths, np.inf)))
    held = Held(bulk, stance, lift_of(bulk, stance))
    length = float(seen.lengths[at])
    start = -length / 2 - _part_of(one.before, length)
    return Trial(
        stance,
        (one.clear - float(seen.widths[at])) / 2,
        one.height - height(bulk, stance) - held.lift,
        "the door",
        lambda: _straight(held, float(seen.headings[at]), start, one.jamb + length / 2 + _part_of(one.after, length)),
        rolled=rolls(bulk, stance),
    )


def _part_of(free: float | None, length: float) -> float:
    """Half of what a piece leaves free before a door [mm], or a little where there is much."""
    return PAST if free is None else min(PAST, (free - length) / 2)


def into_trial(one: Lift | Van, bulk: Bulk, stance: Stance) -> Trial:
    """Straight in through the door until it stands inside with the door shut."""
    depth = one.depth if isinstance(one, Lift) else one.length
    seen = shadow(plan(bulk, stance))
    room = np.minimum((min(one.door_width, one.width) - seen.widths) / 2, (depth - seen.lengths) / 2)
    narrow = one.arches if isinstance(one, Van) else None
    if narrow is not None:
        room = np.minimum(
            room, _between_arches(narrow, one.length if isinstance(one, Van) else 0.0, bulk, stance, seen)
        )
    at = int(np.argmax(room))
    held = Held(bulk, stance, lift_of(bulk, stance))
    half = float(seen.lengths[at]) / 2
    what = "the inside" if depth - seen.lengths[at] < one.door_width - seen.widths[at] else "the door"
    return Trial(
        stance,
        float(room[at]),
        min(one.door_height, one.height) - height(bulk, stance) - held.lift,
        what,
        lambda: _straight(
            held, float(seen.headings[at]), -half - SILL - PAST, depth - half - max(float(room[at]), 0.0)
        ),
        rolled=rolls(bulk, stance),
    )


def _between_arches(arches: tuple[float, float], length: float, bulk: Bulk, stance: Stance, seen: Shadow) -> Floats:
    """Room (n,) between wheel arches for what is no higher than they are [mm]; endless where it ends before them."""
    apart, high = arches
    low_part = _below(bulk, stance, high)
    if not len(low_part):
        return np.full(len(seen.headings), np.inf)
    reach = low_part @ directions(-seen.headings).T
    behind = seen.lengths <= length * ARCH_FROM
    return np.where(behind, np.inf, (apart - np.ptp(reach, axis=0)) / 2)


def _below(bulk: Bulk, stance: Stance, high: float) -> Floats:
    """Corners (n, 2) of the shadow of what lies lower than a height above its lowest point [mm]."""
    low = float((bulk.points @ stance.turn[2]).min())
    found = []
    for lump in bulk.lumps:
        points = lump.corners @ stance.turn.T
        under = points[points[:, 2] < low + high]
        if len(under):
            found.append(under[:, :2])
    return hull(np.vstack(found)) if found else np.zeros((0, 2))


def step_trial(one: Step, bulk: Bulk, stance: Stance) -> Trial:
    """Lifted over a step: always a way where it can be lifted."""
    seen = shadow(plan(bulk, stance))
    at = int(np.argmin(seen.widths))
    held = Held(bulk, stance, one.height + LIFT_MM)
    reach = float(seen.lengths[at]) / 2
    return Trial(
        stance,
        np.inf,
        np.inf,
        "the step",
        lambda: _straight(held, float(seen.headings[at]), -reach - PAST, reach + PAST),
    )


def _straight(held: Held, heading: float, start: float, finish: float) -> tuple[Pose, ...]:
    middle = (start + finish) / 2
    return tuple(held.at(0.0, y, heading) for y in (start, middle, finish))
