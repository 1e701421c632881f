"""Part marks set round a view, their leaders as short as can be, so that none crosses another."""

from __future__ import annotations

from typing import Literal

import numpy as np
from numpy.typing import NDArray

from fitwright.sheets.drawing import lettering
from fitwright.sheets.drawing.hidden import Seen, exposed
from fitwright.sheets.drawing.ink import TEXT_GAP
from fitwright.sheets.drawing.model import MARK_TEXT, PartMark, Point
from fitwright.sheets.drawing.scales import Scale

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
Side = Literal["left", "right", "below", "above"]
Box = tuple[float, float, float, float]

OFF = 7.0  # from the picture to the marks [mm of paper]
PITCH = 8.0  # between marks one above another
APART = 15.0  # wished between the dots of two leaders
BESIDE = 5.0  # between marks side by side
FACES_A_BODY = 10
# where on a face a leader may end, as weights of its corners
SPOTS = np.array([[1, 1, 1], [4, 1, 1], [1, 4, 1], [1, 1, 4]]) / np.array([[3.0], [6.0], [6.0], [6.0]])


def spots(view: Seen) -> dict[str, Floats]:
    """Places seen on each marked part, (n, 2) in the view [mm]; a part of which nothing is seen is left out."""
    solids = view.solids
    faces = _broadest(view)
    corners = solids.vertices[solids.faces[faces]]
    points = np.einsum("sc,fcd->fsd", SPOTS, corners).reshape(-1, 3)
    body = np.repeat(solids.face_body[faces], len(SPOTS))
    seen = exposed(view, points, body)
    flat, body = view.direction.flat(points[seen]), body[seen]
    marks = np.array(solids.marks)[body]
    return {str(mark): flat[marks == mark] for mark in dict.fromkeys(solids.marks) if mark and (marks == mark).any()}


def _broadest(view: Seen) -> Ints:
    """The faces of each body that look broadest, at most FACES_A_BODY of them."""
    solids = view.solids
    a, b, c = (view.points[solids.faces[:, i], :2] for i in range(3))
    area = ((b - a)[:, 0] * (c - a)[:, 1] - (b - a)[:, 1] * (c - a)[:, 0]) / 2
    order = np.lexsort((-area, solids.face_body))
    held = solids.face_body[order]
    first = np.flatnonzero(np.diff(held, prepend=held[0] - 1))
    rank = np.arange(len(held)) - np.repeat(first, np.diff(np.append(first, len(held))))
    chosen = order[rank < FACES_A_BODY]
    broad: Ints = chosen[area[chosen] > 0]
    return broad


def marked(
    seen: dict[str, Floats], box: Box, scale: Scale, sides: tuple[Side, ...] = ("left", "right", "above")
) -> tuple[PartMark, ...]:
    """A mark for each part, set on the given sides of the picture: of left, right and above.

    seen: places (n, 2) on each part, in the view's full-size coordinates; box: left, bottom, right, top of the picture.
    The leaders are the shortest matching of parts to places, which has no crossings: two that cross would be shorter
    swapped.
    """
    if not seen:
        return ()
    sheet = np.array(box) * scale.factor
    texts = list(seen)
    anchors = _anchors([seen[text] * scale.factor for text in texts], sheet, sides)
    places = _places(sheet, len(texts), max(lettering.width(text, MARK_TEXT) for text in texts), sides)
    chosen = _matched(anchors, places)
    return tuple(
        _mark(text, anchor / scale.factor, *places[slot], scale.factor)
        for text, anchor, slot in zip(texts, anchors, chosen, strict=True)
    )


def _anchors(seen: list[Floats], sheet: Floats, sides: tuple[Side, ...]) -> Floats:
    """A point (m, 2) on each of m parts out of those seen of it: apart from one another, and near a side.

    The part with the least choice chooses first.
    """
    anchors = np.full((len(seen), 2), np.inf)
    for number in sorted(range(len(seen)), key=lambda i: len(seen[i])):
        points = seen[number]
        to_edge = {"left": points[:, 0] - sheet[0], "right": sheet[2] - points[:, 0], "above": sheet[3] - points[:, 1]}
        nearest = np.minimum.reduce([to_edge[side] for side in sides])
        apart = np.hypot(*(points[:, None] - anchors[None]).transpose(2, 0, 1)).min(axis=1)
        anchors[number] = points[np.argmax(np.minimum(apart, APART) - nearest / 2)]
    return anchors


def _places(sheet: Floats, count: int, widest: float, sides: tuple[Side, ...]) -> list[tuple[Point, int]]:
    """Ends of leaders round the picture, each with which way its text runs: -1 left, 1 right, 0 up.

    The columns start at the top and grow downwards past the picture when there are more marks than room.
    """
    left, bottom, right, top = (float(c) for c in sheet)
    columns = [(x, way) for side, x, way in (("left", left - OFF, -1), ("right", right + OFF, 1)) if side in sides]
    rows = max(int((top - bottom) // PITCH) + 1, -(-count // len(columns)))
    places = [((x, top - i * PITCH), way) for x, way in columns for i in range(rows)]
    if "above" not in sides:
        return places
    pitch = widest + BESIDE
    spaces = int((right - left) // pitch)
    start = (left + right) / 2 - (spaces - 1) / 2 * pitch
    return places + [((start + i * pitch, top + OFF), 0) for i in range(spaces)]


def _matched(anchors: Floats, places: list[tuple[Point, int]]) -> list[int]:
    """The place of each anchor with the least total length of leaders."""
    from scipy.optimize import linear_sum_assignment

    ends = np.array([end for end, _ in places])
    lengths = np.hypot(*(anchors[:, None] - ends[None]).transpose(2, 0, 1))
    return [int(slot) for slot in linear_sum_assignment(lengths)[1]]


def _mark(text: str, anchor: Floats, end: Point, way: int, factor: float) -> PartMark:
    """A mark whose leader ends at a place, its text running on from there, or centred over it."""
    shift = way * lettering.width(text, MARK_TEXT) / 2
    if way == 0:
        shift = lettering.width(text, MARK_TEXT) / 2 * (1 if anchor[0] * factor <= end[0] else -1)
        shift = 0.0 if abs(anchor[0] * factor - end[0]) < abs(shift) else shift
    at = ((end[0] + shift) / factor, (end[1] + TEXT_GAP + MARK_TEXT / 2) / factor)
    return PartMark(text, (float(anchor[0]), float(anchor[1])), at)
