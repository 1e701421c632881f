"""Legs for which there is no exact answer, searched in the plane for one stance."""

from __future__ import annotations

from collections.abc import Callable, Sequence

import numpy as np
from numpy.typing import NDArray

from fitwright.job.obstacles import Corner, Door, Lift
from fitwright.place.route.convex import hull, normals
from fitwright.place.route.lattice import Found, Lattice
from fitwright.place.route.legs import Leg
from fitwright.place.route.model import Bulk, Pose, Stance, Trial
from fitwright.place.route.placing import Held, lift_of, rolls
from fitwright.place.route.stances import height, plan, shadow_middle
from fitwright.place.route.turning import Turn

Floats = NDArray[np.float64]
Bools = NDArray[np.bool_]
Stop = Callable[[], bool]

STEP_MM = 40.0
HEADINGS = 72
MOST_PARTS = 8
MOST_PLACES = 8000
GRID = 60  # points across a shadow, for its area
SOLID = 0.93  # of its hull, above which a shadow counts as convex
AROUND = 1.15  # of the piece's reach, kept free for it before and behind


def searchable(leg: Leg) -> bool:
    """Whether a search can find more than the exact answer for convex outlines."""
    one = leg.obstacle
    near = isinstance(one, Door) and (one.before is not None or one.after is not None)
    return near or isinstance(one, (Lift, Corner))


def searched(leg: Leg, bulk: Bulk, stance: Stance, stop: Stop = lambda: False) -> Trial | None:
    """A trial by search; None where the exact answer says it all, or when it was stopped."""
    parts = shadow_parts(bulk, stance)
    if isinstance(leg.obstacle, Corner) and len(parts) == 1:
        return None
    reach = float(np.hypot(*np.vstack(parts).T).max())
    window = _window(leg, reach)
    found = _best(leg, parts, window, 1, stop)
    if found is not None and -found.slack < found.room < 0:
        found = _best(leg, parts, window, 2, stop) or found
    held = Held(bulk, stance, lift_of(bulk, stance))
    above = _ceiling(leg) - height(bulk, stance) - held.lift
    if found is None:
        return None
    return Trial(stance, found.room, above, _what(leg), lambda: _laid(held, found), found.slack, rolls(bulk, stance))


def _best(leg: Leg, parts: tuple[Floats, ...], window: Floats, finer: int, stop: Stop) -> Found | None:
    """The roomiest way, on a lattice so many times finer; its step grows with a window that is very large."""
    step = max(STEP_MM, float(np.sqrt(np.prod(window[1] - window[0]) / MOST_PLACES)))
    lattice = Lattice(parts, _walls(leg), window, step / finer, HEADINGS * finer, stop)
    return lattice.best(*_ends(leg, lattice))


def shadow_parts(bulk: Bulk, stance: Stance) -> tuple[Floats, ...]:
    """The shadow as convex outlines about its middle: one where it is nearly convex or has too many parts."""
    whole = plan(bulk, stance)
    middle = shadow_middle(bulk, stance)
    outlines = [hull((lump.corners @ stance.turn.T)[:, :2] - middle) for lump in bulk.lumps]
    if _covered(whole, outlines) > SOLID:
        return (whole,)
    kept = _outer(outlines)
    return tuple(kept) if len(kept) <= MOST_PARTS else (whole,)


def _covered(whole: Floats, outlines: Sequence[Floats]) -> float:
    """Share of an outline's area that is covered by others, from a grid of points."""
    low, high = whole.min(axis=0), whole.max(axis=0)
    grid = np.stack(np.meshgrid(*(np.linspace(a, b, GRID) for a, b in zip(low, high, strict=True))), -1).reshape(-1, 2)
    inside = grid[_inside(grid, whole)]
    found = np.zeros(len(inside), dtype=bool)
    for outline in outlines:
        found |= _inside(inside, outline)
    return float(found.mean()) if len(found) else 1.0


def _inside(points: Floats, outline: Floats) -> Bools:
    off = normals(outline)
    return np.asarray((points @ off.T <= (outline @ off.T).max(axis=0) + 1e-9).all(axis=1))


def _outer(outlines: Sequence[Floats]) -> list[Floats]:
    """Outlines that do not lie inside another one's box, the largest first."""
    boxes = [(one.min(axis=0), one.max(axis=0)) for one in outlines]
    order = sorted(range(len(boxes)), key=lambda k: -float(np.prod(boxes[k][1] - boxes[k][0])))
    kept: list[int] = []
    for k in order:
        if not any((boxes[j][0] <= boxes[k][0] + 1).all() and (boxes[j][1] >= boxes[k][1] - 1).all() for j in kept):
            kept.append(k)
    return [outlines[k] for k in kept]


def _walls(leg: Leg) -> tuple[Floats, ...]:
    """What stands from the floor up."""
    return tuple(hull(one.corners[:, :2]) for one in leg.around() if float(one.corners[:, 2].min()) <= 0)


def _window(leg: Leg, reach: float) -> Floats:
    one, room = leg.obstacle, AROUND * reach
    match one:
        case Door():
            before, after = one.before or 2 * room, one.after or 2 * room
            side = one.clear / 2 + 2 * room
            return np.array([[-side, -before], [side, one.jamb + after]])
        case Lift():
            return np.array([[-one.width / 2, -2 * room], [one.width / 2, one.depth]])
        case Corner():
            inner = Turn(np.zeros((1, 2)), one.first, one.second, one.turn).inner
            return np.array([[0.0, inner[1] - 2 * room], [inner[0] + 2 * room, max(0.0, 2 * room * np.cos(one.turn))]])
    raise AssertionError(f"{type(one).__name__} is not searched")


def _ends(leg: Leg, lattice: Lattice) -> tuple[Bools, Bools]:
    """Where the way may begin and end."""
    one, along = leg.obstacle, np.array([0.0, 1.0])
    if isinstance(one, Corner):
        turn = Turn(np.zeros((1, 2)), one.first, one.second, one.turn)
        begins = lattice.extents(along)[1] <= turn.inner @ along
        return begins, lattice.extents(turn.onward)[0] >= turn.inner @ turn.onward
    low, high = lattice.extents(along)
    behind = one.jamb if isinstance(one, Door) else 0.0
    return high <= (-1.0 if isinstance(one, Door) else -41.0), low >= behind


def _ceiling(leg: Leg) -> float:
    one = leg.obstacle
    if isinstance(one, Lift):
        return min(one.door_height, one.height)
    assert isinstance(one, (Door, Corner))
    return one.height


def _what(leg: Leg) -> str:
    return {"door": "the door and the wall near it", "lift": "the inside", "corner": "the corner"}[leg.kind]


def _laid(held: Held, found: Found) -> tuple[Pose, ...]:
    return tuple(held.at(float(x), float(y), float(heading)) for x, y, heading in _thinned(found.way))


def _thinned(way: Floats) -> Floats:
    """The way without the places that lie straight on between two others."""
    steps = np.diff(way, axis=0)
    turns = ~np.isclose(steps[1:], steps[:-1]).all(axis=1)
    return way[np.concatenate([[True], turns, [True]])] if len(way) > 2 else way
