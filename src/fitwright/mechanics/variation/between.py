"""What a shelf or an opening lies between: the faces of members on both sides of a box."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from fitwright.mechanics.axes import local_axes
from fitwright.mechanics.framing import Framed
from fitwright.mechanics.framing.sections import outline_points
from fitwright.mechanics.model import Bools, Floats
from fitwright.mechanics.variation.loose import Loose
from fitwright.mechanics.variation.model import Outcome
from fitwright.mechanics.variation.reading import Reading, apart

INTO_MM = 1.0
SHELF_WITHIN_MM = 15.0
BATTEN = "batten"


@dataclass(frozen=True, eq=False)
class Boxes:
    """Boxes low and high (m, 3) round the metal of every element [mm]."""

    low: Floats
    high: Floats


@dataclass(frozen=True, eq=False)
class Face:
    """A member's face beside a box: where it is along the axis [mm], the node that carries it, its point (3,)."""

    member: int
    at: float
    node: int
    point: Floats


def element_boxes(framed: Framed) -> Boxes:
    """Boxes round the elements' outsides, square at their ends."""
    _, rotation = local_axes(framed.model)
    low, high = framed.model.ends.min(axis=1), framed.model.ends.max(axis=1)
    outlines: dict[tuple[int, float], Floats] = {}
    for element, (k, turned) in enumerate(zip(framed.member_of.tolist(), framed.turned.tolist(), strict=True)):
        if (k, turned) not in outlines:
            outlines[k, turned] = outline_points(framed.stocks[k].section, turned)
        points = outlines[k, turned] @ rotation[element, 1:]
        low[element] += points.min(axis=0)
        high[element] += points.max(axis=0)
    return Boxes(low, high)


def shelf_plays(framed: Framed, parts: Loose, boxes: Boxes) -> Iterator[Reading]:
    """The play of every shelf that comes out, between each two members that it slips between."""
    for number, panel in enumerate(framed.piece.panels):
        if panel.removable is None:
            continue
        boards = [board for board in panel.boards if board.role != BATTEN]
        low, high = np.min([b.low for b in boards], axis=0), np.max([b.high for b in boards], axis=0)
        for axis in (a for a in range(3) if a != panel.normal):
            for left, right in pairs(parts, boxes, low, high, axis, SHELF_WITHIN_MM):
                names = [framed.piece.members[face.member].name for face in (left, right)]
                play = (right.at - left.at) - float(high[axis] - low[axis])
                yield Reading(
                    Outcome(
                        f"{panel.name} between {names[0]} and {names[1]} at {left.point[1 - axis]:.0f} mm", "play", play
                    ),
                    apart((left.node, left.point), (right.node, right.point), np.eye(3)[axis]),
                    {f"shelf:{number}:{axis}": -1.0, f"measured:{number}:{axis}": -1.0},
                )


def opening_sizes(framed: Framed, parts: Loose, boxes: Boxes) -> Iterator[Reading]:
    """Clear sizes of the job's openings between the members nearest on both sides."""
    for opening in framed.piece.openings:
        for axis, word in enumerate(("width", "depth", "height")):
            found = pairs(parts, boxes, opening.low, opening.high, axis, np.inf)
            for left, right in found[:1]:
                yield Reading(
                    Outcome(f"{opening.name}, clear {word}", "opening", right.at - left.at),
                    apart((left.node, left.point), (right.node, right.point), np.eye(3)[axis]),
                )


def pairs(parts: Loose, boxes: Boxes, low: Floats, high: Floats, axis: int, within: float) -> list[tuple[Face, Face]]:
    """Faces before and behind a box along an axis, each paired with the one most nearly opposite.

    within: how far a face may be from the box [mm]; it may reach into it by 1 mm at most.
    """
    others = [a for a in range(3) if a != axis]
    overlap = (boxes.low < high - INTO_MM) & (boxes.high > low + INTO_MM)
    beside: Bools = np.asarray(overlap[:, others].all(axis=1))
    before = _faces(parts, beside, boxes.high[:, axis], low[axis] - boxes.high[:, axis], within, (low, high), axis)
    behind = _faces(parts, beside, boxes.low[:, axis], boxes.low[:, axis] - high[axis], within, (low, high), axis)
    if not before or not behind:
        return []
    found = []
    for face in before:
        opposite = min(behind, key=lambda other: float(np.abs((other.point - face.point)[others]).sum()))
        found.append((face, opposite))
    return found


def _faces(
    parts: Loose,
    beside: Bools,
    at: Floats,
    off: Floats,
    within: float,
    box: tuple[Floats, Floats],
    axis: int,
) -> list[Face]:
    """One face a member: that nearest to the box, at the middle of what lies beside it."""
    good = np.flatnonzero(beside & (off >= -INTO_MM) & (off <= within))
    found: dict[int, Face] = {}
    for element in good[np.argsort(off[good], kind="stable")].tolist():
        ends = parts.model.elements[element]
        member = int(parts.member_of[ends[0]])
        if member in found and at[element] == found[member].at:
            continue
        middle = np.clip(
            (box[0] + box[1]) / 2, parts.model.nodes[ends].min(axis=0), parts.model.nodes[ends].max(axis=0)
        )
        point = middle.copy()
        point[axis] = at[element]
        if member not in found:
            node = int(ends[int(np.argmin(np.linalg.norm(parts.model.nodes[ends] - middle, axis=1)))])
            found[member] = Face(member, float(at[element]), node, point)
    return list(found.values())
