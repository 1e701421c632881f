"""What has to stay possible round the piece: reaching things, treading on brakes, cleaning below."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

import numpy as np
from numpy.typing import NDArray

from fitwright.job.model import Thing
from fitwright.piece import Piece
from fitwright.place.meeting import in_the_way
from fitwright.place.model import Brake, Reach
from fitwright.place.outline import Skin

Floats = NDArray[np.float64]
Box = tuple[Floats, Floats]

# ISO 15534-3:2000 (95th percentile hand across the thumb 120 mm, 5th percentile arm 615 mm); from memory
HAND_MM, ARM_MM = 120.0, 615.0
ROOM_MM = 100.0  # in front of a thing, for a hand with a plug or a key: common practice
SHOE_WIDE_MM, SHOE_HIGH_MM = 110.0, 90.0  # a shoe's tip that treads on a pedal: common practice
LEG_MM = 300.0  # how far in under a piece a foot treads: common practice
SIDE = {"left": (0, -1.0), "right": (0, 1.0), "front": (1, -1.0), "back": (1, 1.0), "top": (2, 1.0)}
ASIDE = (0.0, -0.5, 0.5, -1.0, 1.0)  # how far, in hands, an arm may go past the middle of what it reaches for


def reach_of(thing: Thing, boxes: Mapping[str, Box], skin: Skin, loose: frozenset[str]) -> Reach | None:
    """Whether a hand gets to a thing from a side, past the piece in its place; None for a thing without a place.

    An arm goes straight in, in line with the thing or beside it by as much as a hand; a hand's room before the thing
    has to be free. loose: parts that can be taken out first.
    """
    if thing.reach is None or thing.name not in boxes:
        return None
    axis, sign = SIDE[thing.reach]
    room = ROOM_MM if thing.room is None else thing.room
    edge = _edge(skin, axis, sign)
    face = float(boxes[thing.name][1 if sign > 0 else 0][axis])
    others = {name: box for name, box in boxes.items() if name != thing.name}
    best: tuple[str, ...] | None = None
    for way in _ways(boxes[thing.name], axis, sign, room, edge):
        names = _blocking(way, skin, others)
        if best is None or _worse(best, loose) > _worse(names, loose):
            best = names
        if not names:
            break
    assert best is not None, "there is a way straight in at least"
    return Reach(thing.name, thing.reach, max(sign * (edge - face), 0.0), best, set(best) <= loose)


def brakes_of(piece: Piece, skin: Skin, boxes: Mapping[str, Box]) -> tuple[Brake, ...]:
    """Each caster's brake, and what is in the way of a foot that comes from the front."""
    found = []
    front = _edge(skin, 1, -1.0)
    for item in piece.hardware:
        if item.placed and item.kind == "caster" and item.properties.get("brake"):
            own = skin.names.index(item.name)
            corners = skin.triangles[skin.owners == own].reshape(-1, 3)
            low, high = corners.min(axis=0), corners.max(axis=0)
            middle = (low[0] + high[0]) / 2
            way = (
                np.array([middle - SHOE_WIDE_MM / 2, front - 1.0, low[2] + 1.0]),
                np.array([middle + SHOE_WIDE_MM / 2, low[1], low[2] + SHOE_HIGH_MM]),
            )
            far = float(low[1]) - front
            found.append(Brake(item.name, far, _blocking([way], skin.without(frozenset({item.name})), boxes)))
    return tuple(found)


def free_below(skin: Skin) -> float | None:
    """The free height under the piece [mm]: to the lowest of what does not itself reach the floor; None without any."""
    bottoms = np.array([skin.low[skin.owners == k, 2].min() for k in range(len(skin.names))])
    if not len(bottoms):
        return None
    floor = float(bottoms.min())
    hanging = bottoms[bottoms > floor + 1.0]
    return float(hanging.min()) - floor if len(hanging) else 0.0


def _worse(names: tuple[str, ...], loose: frozenset[str]) -> tuple[int, int]:
    """How bad it is that these are in the way: first what cannot be taken out."""
    return len(set(names) - loose), len(names)


def _edge(skin: Skin, axis: int, sign: float) -> float:
    """How far the piece reaches towards a side."""
    return float(skin.high[:, axis].max() if sign > 0 else skin.low[:, axis].min())


def _ways(box: Box, axis: int, sign: float, room: float, edge: float) -> Iterator[list[Box]]:
    """The hand's room before the thing with each way of the arm to it, as boxes."""
    low, high = box
    middle, half = (low + high) / 2, np.maximum((high - low) / 2, HAND_MM / 2)
    face = float(high[axis] if sign > 0 else low[axis])
    hand = _along(middle - half, middle + half, axis, face, face + sign * room)
    if sign * (edge - face) <= room:
        yield [hand]
        return
    one, other = (k for k in range(3) if k != axis)
    for across in ASIDE:
        for up in ASIDE:
            centre = middle.copy()
            centre[one] += across * HAND_MM
            centre[other] += up * HAND_MM
            yield [hand, _along(centre - HAND_MM / 2, centre + HAND_MM / 2, axis, face + sign * room, edge)]


def _along(low: Floats, high: Floats, axis: int, start: float, end: float) -> Box:
    low, high = low.copy(), high.copy()
    low[axis], high[axis] = min(start, end), max(start, end)
    return low, high


def _blocking(way: list[Box], skin: Skin, boxes: Mapping[str, Box]) -> tuple[str, ...]:
    """What reaches into any of some boxes: parts of the piece, and things."""
    found = [name for low, high in way for name in in_the_way(skin, low, high)]
    found += [
        name for low, high in way for name, box in boxes.items() if (box[0] < high).all() and (box[1] > low).all()
    ]
    return tuple(dict.fromkeys(found))
