"""How far a number read with a tape may be off before something is wrong, by the virtual builds."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

from fitwright.mechanics.variation import OutcomeSpread

NINETEEN_IN_TWENTY = 1.96  # standard deviations of a normal error that holds 19 of 20 builds
LIKE = 0.2  # a length is compared with one that is nominally this near, as a share of it
LEAST_MM = 0.8  # what a tape tells by eye, 1/32 in; common practice
SIDES = ("width", "depth", "height")
FACES = {"front": ("width", "height"), "back": ("width", "height"), "left": ("depth", "height"),
         "right": ("depth", "height"), "bottom": ("width", "depth"), "middle": ("width", "depth"),
         "top": ("width", "depth")}  # fmt: skip


@dataclass(frozen=True)
class _Known:
    """A length between centrelines, and its spread in the builds [mm]."""

    kind: str
    length: float
    spread: float


def tape_tolerance(outcomes: Sequence[OutcomeSpread]) -> Callable[[str, float], float | None]:
    """From the kind of a check ("width", "height", "diagonal") and its length [mm] to how far off it may be [mm].

    19 of 20 pieces made as this shop makes them lie within it. None where the builds know of no such length: then a
    standard has to do. A check of a part of the piece takes the spread of the length most like it.

    Holds for what lies between the corners of the piece; while parts are only tacked, the pull of the welds, which is
    in it, has yet to come. Source: standard deviations of the virtual builds, as for a normal error.
    """
    sides = list(_sides(outcomes))
    known = [*sides, *_diagonals(outcomes, sides)]

    def tolerance(kind: str, length: float) -> float | None:
        wanted = (kind,) if kind == "diagonal" else SIDES  # on the bench a width of the piece may stand up
        near = [one for one in known if one.kind in wanted and abs(one.length - length) <= LIKE * length]
        if not near:
            return None
        like = min(near, key=lambda one: (round(abs(one.length - length), 1), -one.spread))
        alike = [one.spread for one in near if abs(one.length - like.length) <= 0.02 * length]
        return max(NINETEEN_IN_TWENTY * max(alike), LEAST_MM)

    return tolerance


def _sides(outcomes: Sequence[OutcomeSpread]) -> Iterator[_Known]:
    for one in outcomes:
        if one.outcome.kind in SIDES and one.outcome.nominal > 0:
            yield _Known(one.outcome.kind, one.outcome.nominal, one.spread)


def _diagonals(outcomes: Sequence[OutcomeSpread], sides: Sequence[_Known]) -> Iterator[_Known]:
    """One diagonal of each face: its two sides' spreads along it, and half of how far the two diagonals differ."""
    for one in outcomes:
        if one.outcome.kind != "diagonals":
            continue
        face = one.outcome.name.rpartition(", ")[2]
        pairs = [
            max((s for s in sides if s.kind == kind), key=lambda s: (s.length, s.spread), default=None)
            for kind in FACES[face]
        ]
        if all(pair is not None for pair in pairs):
            a, b = (pair for pair in pairs if pair is not None)
            length = math.hypot(a.length, b.length)
            along = math.hypot(a.length * a.spread, b.length * b.spread) / length
            yield _Known("diagonal", length, math.hypot(along, one.spread / 2))
