"""Everything that can be read on a piece, in the order in which it comes about."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from fitwright.job.readings import Of, Quantity
from fitwright.making.bench.pose import posed
from fitwright.making.bench.tape import checks_of
from fitwright.mechanics.variation.sources import bends_of
from fitwright.truing.asking import Asking
from fitwright.truing.errors import TruingError

SIDES_OF = ("front", "back")


@dataclass(frozen=True)
class Readable:
    """Things of one moment of the build: what the moment is called, and each with what it is as drawn [mm, rad]."""

    title: str
    things: tuple[tuple[Of, float], ...]


def readable(asking: Asking) -> tuple[Readable, ...]:
    """What can be read, moment by moment; what this piece does not have is left out."""
    found = []
    for title, things in _moments(asking):
        known = []
        for of in things:
            try:
                known.append((of, asking.of(of).drawn))
            except TruingError:
                continue
        if known:
            found.append(Readable(title, tuple(known)))
    return tuple(found)


def _moments(asking: Asking) -> Iterator[tuple[str, list[Of]]]:
    piece = asking.setting.framed.piece
    yield "At the saw: the first of each", [Of(Quantity.CUT_LENGTH, mark) for mark in asking.names.marks]
    for member in piece.members:
        if member.path.bent and member.index in asking.setting.parts.nodes_of:
            yield f"Bent: {member.name}", _of_bent(asking, member.index)
    for number, group in enumerate(asking.groups):
        yield f"Tacked: {group.name}", _of_set_up(asking, number)
    yield "Welded: the whole piece", list(_of_whole())
    yield "On its feet", [Of(Quantity.FOOT_HEIGHT, number=f + 1) for f in range(len(asking.setting.parts.feet))]
    yield (
        "Before the shelves are sawn",
        [Of(Quantity.FOR_SHELF, p.name) for p in piece.panels if p.removable is not None],
    )
    yield (
        "Painted, and in its place",
        [Of(Quantity.PAINT), *(Of(Quantity.WALL_GAP, place=p) for p in ("left", "right", "behind", "above"))],
    )


def _of_bent(asking: Asking, k: int) -> list[Of]:
    name, count = asking.setting.framed.piece.members[k].name, len(bends_of(asking.setting.framed, k))
    found = [Of(Quantity.BEND, name, n) for n in range(1, count + 1)]
    found += [Of(Quantity.ROTATION, name, n) for n in range(2, count + 1)]
    found += [Of(Quantity.SPREAD, name, place=place) for place in ("bends", "ends")]
    return found + [Of(Quantity.LEG, name, n) for n in (1, count + 1)]


def _of_set_up(asking: Asking, number: int) -> list[Of]:
    group = asking.groups[number]
    found, diagonals = [], 0
    for check in checks_of(posed(asking.setting.framed.piece, asking.groups, number), asking.style, None):
        if check.kind == "diagonal":
            diagonals += 1
            found.append(Of(Quantity.DIAGONAL, group.name, diagonals))
        elif check.kind == "height":
            found.append(Of(Quantity.ABOVE_BENCH, group.name))
        else:
            axis, _, side = check.name.split(",")[0].partition(" along the ")
            found.append(Of(Quantity.ALONG, group.name, place=side, axis=axis))
    return found


def _of_whole() -> Iterator[Of]:
    for level in ("bottom", "middle", "top"):
        yield Of(Quantity.WIDTH, place=level)
    for level in ("bottom", "top"):
        yield Of(Quantity.DEPTH, place=level)
    yield Of(Quantity.HEIGHT)
    for face in ("bottom", "top", "front", "back"):
        for number in (1, 2):
            yield Of(Quantity.DIAGONAL, number=number, place=face)
