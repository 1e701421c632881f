"""How a shelf is taken out of the piece in its place: slid, lifted over what is before it, or tilted."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from fitwright.piece.body import rotated
from fitwright.piece.model import Panel
from fitwright.place.meeting import in_the_way, nearest_beside
from fitwright.place.model import WayOut
from fitwright.place.outline import BOX_FACES, CORNERS, Skin, skin_of
from fitwright.units import Style

Floats = NDArray[np.float64]
Box = tuple[Floats, Floats]

TILTS = np.radians([8.0, -8.0, 16.0, -16.0, 25.0, -25.0, 40.0, -40.0])
ON_THE_WAY = (1 / 3, 2 / 3, 1.0)  # of a lift or a tilt, looked at one by one
OVER_MM = 1.0  # a shelf is lifted this much higher than what it has to pass
MOST_LIFT_MM = 400.0
FREE_MM = 50.0  # a gap beside a shelf larger than this is as good as any


@dataclass(frozen=True, eq=False)
class _Shelf:
    """A panel as boxes round its boards of a kind, its way out along an axis, and all else that is in the place."""

    panel: Panel
    boxes: tuple[Box, ...]
    axis: int
    sign: float
    others: Skin
    end: float

    def slid(self, box: Box) -> Box:
        """What a box sweeps from its place until it is out."""
        low, high = box[0].copy(), box[1].copy()
        if self.sign > 0:
            high[self.axis] = max(self.end, high[self.axis])
        else:
            low[self.axis] = min(self.end, low[self.axis])
        return low, high

    def blocked(self, boxes: tuple[Box, ...], others: Skin) -> tuple[str, ...]:
        """What reaches into any of the boxes."""
        return tuple(dict.fromkeys(name for box in boxes for name in in_the_way(others, *box)))


def way_out(panel: Panel, skin: Skin, around: dict[str, Box], resting: frozenset[str], style: Style) -> WayOut | None:
    """The simplest way to take a removable panel out of the piece in its place; None for one that is fixed.

    skin: the piece in its place; around: walls and things as boxes; resting: the parts that it lies on. Tried in turn:
    to slide it straight out; to lift it over what is before it and slide it; to tilt it sideways or one end up, and
    slide it. For a tilt everything else is turned the other way round the shelf, so that the shelf stays a box.
    Holds for a panel taken as the boxes round its boards of a kind, moved straight or turned about an edge.
    """
    if panel.removable is None:
        return None
    shelf = _shelf(panel, skin, around)
    first = shelf.blocked(tuple(shelf.slid(box) for box in shelf.boxes), shelf.others)
    room = float(panel.high[shelf.axis] - panel.low[shelf.axis])
    word = {(0, -1): "left", (0, 1): "right", (1, -1): "front", (1, 1): "back", (2, 1): "top", (2, -1): "floor"}
    slide = f"slide it out to the {word[shelf.axis, int(shelf.sign)]}" if shelf.axis != 2 else "lift it out"
    for moves, others, boxes in _ways(shelf, first, style):
        return WayOut(panel.name, (*moves, slide), _least_beside(shelf, boxes, others, resting), (), room)
    return WayOut(panel.name, (), 0.0, first, room)


def _shelf(panel: Panel, skin: Skin, around: dict[str, Box]) -> _Shelf:
    """In the coordinates of the place: the panel's own triangles say where it is."""
    assert panel.removable is not None
    axis = int(np.argmax(np.abs(panel.removable)))
    sign = float(np.sign(panel.removable[axis]))
    own = skin.triangles[skin.owners == skin.names.index(panel.name)]
    middle = (own.min(axis=(0, 1)) + own.max(axis=(0, 1))) / 2
    shift = middle - (panel.low + panel.high) / 2
    roles = dict.fromkeys(board.role for board in panel.boards)
    boxes = tuple(
        (
            np.min([b.low for b in panel.boards if b.role == role], axis=0) + shift,
            np.max([b.high for b in panel.boards if b.role == role], axis=0) + shift,
        )
        for role in roles
    )
    edge = float(skin.high[:, axis].max() if sign > 0 else skin.low[:, axis].min())
    end = edge + sign * float(panel.high[axis] - panel.low[axis])
    others = _with_boxes(skin.without(frozenset({panel.name})), around)
    return _Shelf(panel, boxes, axis, sign, others, end)


def _with_boxes(skin: Skin, boxes: dict[str, Box]) -> Skin:
    if not boxes:
        return skin
    faces = np.vstack([(low + CORNERS * (high - low))[BOX_FACES] for low, high in boxes.values()])
    owners = len(skin.names) + np.repeat(np.arange(len(boxes)), len(BOX_FACES))
    return skin_of(np.vstack([skin.triangles, faces]), np.concatenate([skin.owners, owners]), (*skin.names, *boxes))


def _ways(
    shelf: _Shelf, first: tuple[str, ...], style: Style
) -> Iterator[tuple[tuple[str, ...], Skin, tuple[Box, ...]]]:
    """Ways that are free: the moves before the slide, all else as the shelf then sees it, and its boxes."""
    if not first:
        yield (), shelf.others, shelf.boxes
        return
    if shelf.axis != 2:
        yield from _lifted(shelf, first, style)
    yield from _tilted(shelf)


def _lifted(
    shelf: _Shelf, first: tuple[str, ...], style: Style
) -> Iterator[tuple[tuple[str, ...], Skin, tuple[Box, ...]]]:
    before = [shelf.others.names.index(name) for name in first]
    tops = [float(shelf.others.high[shelf.others.owners == k, 2].max()) for k in before]
    low = min(float(box[0][2]) for box in shelf.boxes)
    for top in sorted(tops):
        lift = top - low + OVER_MM
        if not 0 < lift < MOST_LIFT_MM:
            continue
        up = np.array([0.0, 0.0, lift])
        raised = tuple((box[0] + up, box[1] + up) for box in shelf.boxes)
        way = tuple((box[0], box[1] + up) for box in shelf.boxes) + tuple(shelf.slid(box) for box in raised)
        if not shelf.blocked(way, shelf.others):
            yield (f"lift it {style.length(lift)}",), shelf.others, raised
            return


def _tilted(shelf: _Shelf) -> Iterator[tuple[tuple[str, ...], Skin, tuple[Box, ...]]]:
    low = np.min([box[0] for box in shelf.boxes], axis=0)
    high = np.max([box[1] for box in shelf.boxes], axis=0)
    flat = [axis for axis in (0, 1) if axis != shelf.axis]
    for axis in (shelf.axis, *flat) if shelf.axis != 2 else (0, 1):
        for angle in TILTS.tolist():
            pivot, aside = _pivot(low, high, axis, angle)
            seen = [_turned(shelf.others, pivot, axis, -angle * part, aside * part) for part in ON_THE_WAY]
            free = not any(shelf.blocked(shelf.boxes, others) for others in seen)
            if free and not shelf.blocked(tuple(shelf.slid(box) for box in shelf.boxes), seen[-1]):
                yield (_tilt_words(axis, angle),), seen[-1], shelf.boxes
                return


def _pivot(low: Floats, high: Floats, axis: int, angle: float) -> tuple[Floats, Floats]:
    """A point (3,) of the edge that does not go up, and how far aside the shelf is moved to keep its middle (3,) [mm].

    Moved to where the edge goes up, by half of what a slant takes off its width and its thickness adds behind it.
    """
    point, aside = low.copy(), np.zeros(3)
    across = 1 if axis == 0 else 0
    first = (angle > 0) == (axis == 0)  # whether the edge that stays is the one at the lower coordinate
    point[across] = low[across] if first else high[across]
    width, height = float(high[across] - low[across]), float(high[2] - low[2])
    slack = (width * (1 - np.cos(angle)) + height * abs(np.sin(angle))) / 2
    aside[across] = slack if first else -slack
    return point, aside


def _tilt_words(axis: int, angle: float) -> str:
    side = {(0, True): "back", (0, False): "front", (1, True): "left", (1, False): "right"}[axis, angle > 0]
    return f"tilt it, its {side} side up, by {abs(np.degrees(angle)):.0f}°"


def _turned(skin: Skin, pivot: Floats, axis: int, angle: float, aside: Floats) -> Skin:
    """All else as a shelf sees it that is moved aside and tilted the other way."""
    turned = rotated(skin.triangles - aside - pivot, np.eye(3)[axis], angle) + pivot
    return skin_of(turned, skin.owners, skin.names)


def _least_beside(shelf: _Shelf, boxes: tuple[Box, ...], others: Skin, resting: frozenset[str]) -> float:
    """The least gap on the way out to anything but what it rests on, as far as `FREE_MM` [mm]."""
    found = [FREE_MM]
    across = FREE_MM * (np.arange(3) != shelf.axis)
    for box in boxes:
        low, high = shelf.slid(box)
        ahead = others.near(low - across, high + across).without(resting)
        near = nearest_beside(ahead, low, high, shelf.axis)
        if near is not None:
            found.append(near.gap)
    return min(found)
