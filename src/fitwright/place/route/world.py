"""What stands round an obstacle, as convex blocks in the obstacle's own coordinates."""

from __future__ import annotations

from dataclasses import dataclass
from functools import singledispatch

import numpy as np
from numpy.typing import NDArray

from fitwright.job.obstacles import Corner, Corridor, Door, Landing, Lift, Obstacle, Stairs, Step, Van
from fitwright.place.route.convex import box_corners
from fitwright.place.route.turning import Turn

Floats = NDArray[np.float64]

THICK = 120.0  # of walls whose thickness does not matter [mm]
FAR = 12000.0  # how far walls run on past an obstacle [mm]
HIGH = 3000.0  # how high walls are where no ceiling is known [mm]
REACH = 2600.0  # of the passages before and after a turn


@dataclass(frozen=True, eq=False)
class Block:
    """A convex solid: corners (k, 3) [mm]; what it is, in words."""

    what: str
    corners: Floats


def prism(what: str, outline: Floats, low: float, high: float) -> Block:
    """A block over a convex outline (k, 2) seen from above."""
    foot = np.column_stack([outline, np.full(len(outline), low)])
    return Block(what, np.vstack([foot, foot + np.array([0.0, 0.0, high - low])]))


def box(what: str, low: tuple[float, float, float], high: tuple[float, float, float]) -> Block:
    """A block with level and upright faces."""
    return prism(what, box_corners(low[:2], high[:2]), low[2], high[2])


def across(what: str, profile: Floats, left: float, right: float) -> Block:
    """A block over a convex profile (k, 2) of (y, z), from x = left to x = right."""
    one = np.column_stack([np.full(len(profile), left), profile])
    return Block(what, np.vstack([one, one + np.array([right - left, 0.0, 0.0])]))


@singledispatch
def blocks(obstacle: Obstacle) -> tuple[Block, ...]:
    """What could be touched at an obstacle, its floor left out."""
    raise AssertionError(f"{type(obstacle).__name__} is no obstacle")


@blocks.register
def _(one: Door) -> tuple[Block, ...]:
    half, deep = one.clear / 2, max(one.jamb, 1.0)
    found = [
        box("the left jamb", (-half - FAR, 0.0, 0.0), (-half, deep, HIGH)),
        box("the right jamb", (half, 0.0, 0.0), (half + FAR, deep, HIGH)),
        box("the door head", (-half, 0.0, one.height), (half, deep, HIGH)),
    ]
    if one.before is not None:
        found.append(box("the wall before it", (-FAR, -one.before - THICK, 0.0), (FAR, -one.before, HIGH)))
    if one.after is not None:
        found.append(box("the wall behind it", (-FAR, deep + one.after, 0.0), (FAR, deep + one.after + THICK, HIGH)))
    return tuple(found)


@blocks.register
def _(one: Corridor) -> tuple[Block, ...]:
    return (
        box("the left wall", (-one.width / 2 - THICK, 0.0, 0.0), (-one.width / 2, one.length, one.height)),
        box("the right wall", (one.width / 2, 0.0, 0.0), (one.width / 2 + THICK, one.length, one.height)),
        box("the ceiling", (-one.width / 2, 0.0, one.height), (one.width / 2, one.length, one.height + THICK)),
    )


@blocks.register
def _(one: Corner) -> tuple[Block, ...]:
    walls = corner_walls(Turn(np.zeros((1, 2)), one.first, one.second, one.turn))
    return tuple(prism(what, outline, 0.0, one.height) for what, outline in walls)


def corner_walls(turn: Turn) -> tuple[tuple[str, Floats], ...]:
    """The three walls (k, 2) at a turn, seen from above: both outer ones and the inner corner."""
    on, inner = turn.onward * FAR, turn.inner
    back = np.array([0.0, -FAR])
    off = np.array([-turn.onward[1], turn.onward[0]]) * THICK  # out of the second passage
    left = np.array([-THICK, 0.0])
    return (
        ("the outer wall before the corner", np.array([back + left, back, [0.0, 0.0], left])),
        ("the outer wall behind the corner", np.array([[0.0, 0.0], on, on + off, off])),
        ("the inner corner", np.array([inner, inner + back, inner + on])),
    )


@blocks.register
def _(one: Lift) -> tuple[Block, ...]:
    return car("car", one.door_width, one.door_height, (one.width, one.depth, one.height))


@blocks.register
def _(one: Van) -> tuple[Block, ...]:
    found = list(car("load space", one.door_width, one.door_height, (one.width, one.length, one.height)))
    if one.arches is not None:
        apart, high = one.arches
        first, last = one.length * ARCH_FROM, one.length * ARCH_TO
        found += [
            box("the left wheel arch", (-one.width / 2, first, 0.0), (-apart / 2, last, high)),
            box("the right wheel arch", (apart / 2, first, 0.0), (one.width / 2, last, high)),
        ]
    return tuple(found)


ARCH_FROM, ARCH_TO = 0.3, 0.65  # where wheel arches stand along a load space (common practice)
SILL = 40.0  # depth of the frame of a lift's or van's door [mm]


def car(name: str, door_width: float, door_height: float, inside: tuple[float, float, float]) -> tuple[Block, ...]:
    """A box with a door in its front: the door's frame before y = 0, the inside behind it."""
    width, depth, height = inside
    half, wide, out = door_width / 2, width / 2, max(width, door_width) / 2 + THICK
    return (
        box("the door's left side", (-out, -SILL, 0.0), (-half, 0.0, height)),
        box("the door's right side", (half, -SILL, 0.0), (out, 0.0, height)),
        box("the door's head", (-half, -SILL, door_height), (half, 0.0, max(height, door_height + SILL))),
        box(f"the left side of the {name}", (-wide - THICK, 0.0, 0.0), (-wide, depth, height)),
        box(f"the right side of the {name}", (wide, 0.0, 0.0), (wide + THICK, depth, height)),
        box(f"the back of the {name}", (-wide, depth, 0.0), (wide, depth + THICK, height)),
        box(f"the top of the {name}", (-wide, 0.0, height), (wide, depth, height + THICK)),
    )


@blocks.register
def _(one: Step) -> tuple[Block, ...]:
    return (box("the step", (-REACH, 0.0, 0.0), (REACH, REACH, one.height)),)


@blocks.register
def _(one: Stairs) -> tuple[Block, ...]:
    """The first flight (or the only one) going up along +y from the nosing line's foot at the origin."""
    count = one.steps if one.landing is None else one.landing.after
    return flight(one, count)


def flight(one: Stairs, count: int, walls: tuple[float | None, float | None] = (None, None)) -> tuple[Block, ...]:
    """Steps, strings and the slope overhead of one flight; its first nosing is at y = 0.

    walls: how far behind its foot and beyond its last nosing the next wall stands [mm], None where it runs on.
    """
    half = one.width / 2
    end, top = (count - 1) * one.run, count * one.rise
    far = end + REACH
    steps = [
        box(f"step {k + 1}", (-half, k * one.run, k * one.rise), (half, far, (k + 1) * one.rise)) for k in range(count)
    ]
    low = one.rise + one.headroom  # over the first nosing
    over = np.array([[0.0, low], [end, top + one.headroom], [end, top + one.headroom + THICK], [0.0, low + 2 * THICK]])
    slope = [across("the slope overhead", over, -half, half)] if count > 1 else []
    ceiling = [
        *slope,
        box("the ceiling above", (-half, end, top + one.headroom), (half, far, top + one.headroom + THICK)),
        box("the ceiling below", (-half, -REACH, low), (half, 0.0, low + THICK)),
    ]
    sides = [
        box("the wall on the left", (-half - THICK, -REACH, 0.0), (-half, far, top + one.headroom)),
        box("the wall on the right", (half, -REACH, 0.0), (half + THICK, far, top + one.headroom)),
    ]
    ends = [
        box(what, (-half, y, 0.0), (half, y + THICK, top + one.headroom))
        for what, y in (
            ("the wall behind", None if walls[0] is None else -walls[0] - THICK),
            ("the wall ahead", None if walls[1] is None else end + walls[1]),
        )
        if y is not None
    ]
    return (*steps, *ceiling, *sides, *ends)


def landing_blocks(one: Stairs, landing: Landing) -> tuple[Block, ...]:
    """A landing that turns the stair: its outer corner at the origin, come up to along +y, left along +x or back."""
    head, thick = one.headroom, THICK
    low = -landing.length
    found = [
        box("the landing's far wall", (-thick, 0.0, -REACH), (landing.width + REACH, thick, head)),
        box("the landing's side wall", (-thick, low - REACH, -REACH), (0.0, 0.0, head)),
        box("the ceiling over the landing", (0.0, low, head), (landing.width, 0.0, head + thick)),
    ]
    drop, count = one.rise / one.run * REACH, int(REACH // one.run)
    below = np.array([[low, head], [low - REACH, head - drop], [low - REACH, head - drop + thick], [low, head + thick]])
    if landing.turn > np.pi * 0.75:
        found.append(box("the side wall", (landing.width, low, -REACH), (landing.width + thick, 0.0, head)))
        inner = one.width, landing.width - one.width
        if inner[1] > inner[0]:
            found.append(box("the well between the flights", (inner[0], low - REACH, 0.0), (inner[1], low, 900.0)))
        return tuple(found)
    found.append(across("the slope overhead", below, 0.0, one.width))
    found.append(box("the inner corner", (one.width, low - REACH, -REACH), (landing.width + REACH, low, head)))
    if landing.length > one.width:
        beside = (landing.width, low, 0.0), (landing.width + REACH, -one.width, head)
        found.append(box("the wall beside the flight above", *beside))
    found += [
        box(f"step {k + 1} above", (landing.width + k * one.run, low, k * one.rise),
            (landing.width + REACH, 0.0, (k + 1) * one.rise)) for k in range(count)
    ]  # fmt: skip
    return tuple(found)
