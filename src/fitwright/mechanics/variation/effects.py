"""Elementary errors: what one unit of a bend, a cut, a stop, a weld does where it is made."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from fitwright.mechanics.framing import Framed
from fitwright.mechanics.model import Floats
from fitwright.mechanics.variation.influences import Influences
from fitwright.mechanics.variation.loose import Loose, Meeting
from fitwright.mechanics.variation.stops import Stage
from fitwright.piece.path import Arc

GAP, SEAT, WELD, FLOOR = "gap", "seat", "weld", "floor"
STOP = "stop"


@dataclass(frozen=True)
class Effect:
    """One unit of an elementary error.

    key: unique. place: in words. entries: (where it sits, row there, how much); see `Influences` for the places.
    """

    key: str
    place: str
    entries: tuple[tuple[str, int, float], ...]


def effects(framed: Framed, parts: Loose, stages: Sequence[Stage]) -> tuple[Effect, ...]:
    """Every elementary error that the making of this piece can have, whatever its spread."""
    found = [effect for k in parts.nodes_of for effect in _of_member(framed, parts, k)]
    found += [effect for i, meeting in enumerate(parts.meetings) for effect in _of_joint(framed, i, meeting)]
    for number, stage in enumerate(stages):
        for row, stop in enumerate(stage.stops):
            name = parts.model.node_labels[stop.node]
            found.append(Effect(f"stop:{number}:{row}", f"{name}, {stage.name}", ((f"{STOP}{number}", row, 1.0),)))
    found += [Effect(f"foot:{f}", foot.name, ((FLOOR, f, 1.0),)) for f, foot in enumerate(parts.feet)]
    return tuple(found)


def columns(found: Sequence[Effect], answers: Influences) -> Floats:
    """(o, e) change of each outcome for one unit of each elementary error, as far as it comes through the frame.

    What sits in a stage that the answers do not reach is not felt.
    """
    places = {GAP: answers.gaps, SEAT: answers.seats, WELD: answers.welds, FLOOR: answers.floor}
    places |= {f"{STOP}{number}": block for number, block in enumerate(answers.stops)}
    total = np.zeros((len(answers.gaps), len(found)))
    for column, effect in enumerate(found):
        for place, row, amount in effect.entries:
            if place in places:
                total[:, column] += amount * places[place][:, row]
    return total


def _of_member(framed: Framed, parts: Loose, k: int) -> Iterator[Effect]:
    member, elements, line = framed.piece.members[k], parts.elements_of[k], framed.lines[k]
    middle = framed.stations[elements].mean(axis=1)
    which = np.array(line.which(middle))
    number = 0
    for segment, shape in enumerate(line.segments):
        if isinstance(shape, Arc):
            number += 1
            place = f"{member.name}, bend {number}" if not member.ring else member.name
            here = elements[which == segment]
            yield Effect(f"bend:{k}:{number}", place, tuple(_turning(framed, here, shape)))
            before, after = (
                elements[middle < middle[which == segment].min()],
                elements[middle > middle[which == segment].max()],
            )
            yield Effect(f"place:{k}:{number}", place, (*_stretch(before[-1:], 1.0), *_stretch(after[:1], -1.0)))
            if number > 1 and len(before):
                yield Effect(f"turn:{k}:{number}", place, ((GAP, 6 * int(before[-1]) + 3, 1.0),))
    for end, element in ((0, elements[:1]), (1, elements[-1:])):
        yield Effect(f"tip:{k}:{end}", f"{member.name}, {('first', 'last')[end]} end", tuple(_stretch(element, 1.0)))


def _turning(
    framed: Framed, elements: np.ndarray[tuple[int], np.dtype[np.intp]], arc: Arc
) -> Iterator[tuple[str, int, float]]:
    """One radian more of bend, spread over the chords of the bend by their lengths."""
    from fitwright.mechanics.axes import local_axes

    length, rotation = local_axes(framed.model)
    share = length[elements] / length[elements].sum()
    local = rotation[elements] @ arc.axis
    for element, part, axis in zip(elements.tolist(), share, local, strict=True):
        yield from ((GAP, 6 * element + 3 + d, float(part * axis[d])) for d in range(3))


def _stretch(elements: np.ndarray[tuple[int], np.dtype[np.intp]], amount: float) -> list[tuple[str, int, float]]:
    return [(GAP, 6 * int(element), amount) for element in elements]


def _of_joint(framed: Framed, number: int, meeting: Meeting) -> Iterator[Effect]:
    first, second = (framed.piece.members[k].name for k in meeting.members)
    place = f"{first} on {second}" if first != second else f"{first}, its butt"
    row = 6 * number
    yield Effect(f"gap:{number}", place, ((SEAT, row, 1.0),))
    yield Effect(f"shrink:{number}", place, ((WELD, row, -1.0),))
    for turn, d in (("run", 4), ("across", 5)):
        yield Effect(f"pull_{turn}:{number}", place, ((WELD, row + d, 1.0),))
        # an end out of square stands off by half its size on the side where it touches
        yield Effect(f"square_{turn}:{number}", place, ((SEAT, row + d, 1.0), (SEAT, row, meeting.half)))
    for d, way in ((1, "run"), (2, "across")):
        yield Effect(f"play_{way}:{number}", place, ((SEAT, row + d, 1.0),))
