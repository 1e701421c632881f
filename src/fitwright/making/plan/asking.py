"""The readings that steps ask for, in the words in which the job file keeps them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from fitwright.making.plan.given import Bent, Given, SawSetting, SetUp
from fitwright.making.plan.model import AskedReading

# How far off each may be before something is done about it; common practice.
CUT_MM, BEND_RAD, TRIM_MM = 0.5, 0.0087, 1.0
DIAGONALS = (1, 2)


def of_saw(settings: Sequence[SawSetting]) -> Iterator[AskedReading]:
    """The first piece of every setting."""
    for one in settings:
        yield AskedReading(f"cut length of {one.marks[0]}", one.length, CUT_MM)


def of_bends(one: Bent) -> Iterator[AskedReading]:
    """Every bend of every copy, counted along the part as drawn."""
    for name in one.names:
        for line in sorted(one.bends, key=lambda line: line.drawn):
            yield AskedReading(f"bend {line.drawn} of {name}", line.angle, BEND_RAD, angle=True)
        if one.spread is not None:
            yield AskedReading(f"spread at the ends of {name}", one.spread)


def of_trims(one: Bent) -> Iterator[AskedReading]:
    """Every leg that is cut to length, of every copy."""
    for name in one.names:
        for line in sorted(one.trims, key=lambda line: line.leg):
            if line.allowance > 0:
                yield AskedReading(f"leg {line.leg} of {name}", line.measured, TRIM_MM)


def of_set_up(one: SetUp) -> Iterator[AskedReading]:
    """The check numbers of a set-up."""
    for line in one.checks:
        if line.of:
            yield AskedReading(line.of, line.length, line.tolerance)


def of_frame(given: Given) -> Iterator[AskedReading]:
    """The whole frame after welding: over all, and whether front and bottom are square."""
    for name, size in given.frame:
        yield AskedReading(f"{name} of the piece", size)
    for place in ("front", "bottom"):
        yield from (AskedReading(f"diagonal {number} at the {place}") for number in DIAGONALS)


def of_openings(given: Given) -> Iterator[AskedReading]:
    """What shelves that are taken out drop into."""
    for panels in given.panels:
        yield from (AskedReading(f"opening for {name}", size) for name, size in panels.openings)


def of_feet(given: Given) -> Iterator[AskedReading]:
    """How level the feet are: each over a level plane."""
    yield from (AskedReading(f"height of foot {number}") for number in range(1, given.feet + 1))


def of_place(given: Given) -> Iterator[AskedReading]:
    """The gaps to what stands beside the piece."""
    yield from (AskedReading(f"gap {side}", wanted) for side, wanted in given.gaps)
