"""Repeats and mirrors: copies by moving along x, y and z, then on a slant, then by turning, then mirror images."""

from __future__ import annotations

from fitwright.job.model import Along, Around, Mirror, Placing, Slanted
from fitwright.job.resolve.directions import AXES
from fitwright.job.resolve.scope import DECIMALS, MOST_COPIES, Scope
from fitwright.job.shape.parts import AroundShape, EveryShape, MirrorShape, PlacedShape, RepeatShape, SlantedShape
from fitwright.job.written import Place, Written


def placings(part: PlacedShape, name: str, place: Place, scope: Scope) -> tuple[Placing, ...]:
    """What a part's repeat and mirror ask for, in the order in which they apply."""
    found = (*_repeats(part.repeat, name, place, scope), *_mirrors(part.mirror, scope))
    copies = 1
    for placing in found:
        copies *= _copies(placing)
    if copies > MOST_COPIES:
        scope.wrong(
            place, f"parts.{name}", f"repeat and mirror make {copies:,} copies; at most {MOST_COPIES:,} are made"
        )
    return found


def _copies(placing: Placing) -> int:
    match placing:
        case Along(_, offsets):
            return len(offsets)
        case Slanted(_, count) | Around(_, _, count):
            return count
        case Mirror():
            return 2


def _repeats(repeat: RepeatShape | None, name: str, place: Place, scope: Scope) -> list[Placing]:
    if repeat is None:
        return []
    found: list[Placing] = []
    for axis, letter in enumerate(AXES):
        given: list[Written] | EveryShape | None = getattr(repeat, letter)
        if given is not None:
            found.append(Along(axis, _offsets(given, f"parts.{name}.repeat.{letter}", place, scope)))
    if repeat.slanted:
        found.append(_slanted(repeat.slanted, scope))
    return [*found, _around(repeat.around, scope)] if repeat.around else found


def _offsets(given: list[Written] | EveryShape, where: str, place: Place, scope: Scope) -> tuple[float, ...]:
    if isinstance(given, EveryShape):
        start = scope.length_or(given.start, 0.0)
        step = scope.length(given.every)
        return tuple(round(start + step * number, DECIMALS) for number in range(scope.count(given.count)))
    if not 1 <= len(given) <= MOST_COPIES:
        scope.wrong(place, where, f"{len(given)} offsets; 1 to {MOST_COPIES:,} belong here")
        return (0.0,)
    return tuple(scope.length(offset) for offset in given)


def _slanted(slanted: SlantedShape, scope: Scope) -> Slanted:
    return Slanted(scope.point(slanted.every), scope.count(slanted.count))


def _around(around: AroundShape, scope: Scope) -> Around:
    x, y = (scope.length(coordinate) for coordinate in around.centre)
    return Around(x, y, scope.count(around.count))


def _mirrors(mirror: MirrorShape | None, scope: Scope) -> list[Mirror]:
    if mirror is None:
        return []
    given = ((axis, getattr(mirror, letter)) for axis, letter in enumerate(AXES))
    return [Mirror(axis, scope.length(at)) for axis, at in given if at is not None]
