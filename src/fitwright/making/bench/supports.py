"""Blocks that stand under parts that lie above the bench, and squares that bring them over what lies below."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from fitwright.making.bench.pose import ON_BENCH_MM, Laid, Posed, Run
from fitwright.making.bench.room import HEAT_MM, Obstacles
from fitwright.making.bench.setting import Bearing

Floats = NDArray[np.float64]

BLOCK_HALF_MM = 20.0  # half the width of an upright block, of 2x4 or 40 mm stock
SHARES = (0.2, 0.8)
CARRIED = 3  # a part that meets so many standing ones lies on them
TRIED = 41


@dataclass(frozen=True, eq=False)
class Standing:
    """An upright block: where (2,), under which run, how high [mm], on what: 0 for the bench, or a lower top."""

    at: Floats
    run: Run
    height: float
    base: float


def supports_of(pose: Posed, beside: Obstacles, bearings: list[Bearing], low: Floats, high: Floats) -> list[Standing]:
    """Upright blocks for every thing that lies above the bench: four under a frame, two under a straight.

    low, high (2,): the bench's corners in the pose's axes. None under what lies on three standing parts or more.
    """
    found: list[Standing] = []
    for thing in pose.laid:
        if thing.lies and thing.bottom > ON_BENCH_MM and carriers(pose, thing) < CARRIED:
            for run in _under(thing):
                for share in SHARES:
                    place = _place(run, share, beside, bearings, found, thing, low, high)
                    if place is not None:
                        found.append(place)
    return found


def carriers(pose: Posed, thing: Laid) -> int:
    """How many joints of this set-up a thing has with things that stand."""
    stand = {m for other in pose.laid if not other.lies for m in other.members}
    inside = set(thing.members)
    pairs = [whose for whose in pose.weld_members if len(whose) == 2]
    return sum(bool(whose & inside) and bool(whose & stand - inside) for whose in pairs)


def _under(thing: Laid) -> list[Run]:
    """The straights that blocks go under: the lowest longest one, and of a frame the one farthest from it beside it."""
    lowest = [run for run in thing.level if run.bottom - thing.bottom < 1.0]
    first = max(lowest, key=lambda run: round(run.length, 1))
    beside = [run for run in lowest if run is not first and abs(float(run.along @ first.along)) > 0.99]
    if not (thing.frame or thing.bent) or not beside:
        return [first]
    return [
        first,
        max(beside, key=lambda run: float(np.linalg.norm((run.start + run.end - first.start - first.end)[:2]))),
    ]


def _place(
    run: Run,
    share: float,
    beside: Obstacles,
    bearings: list[Bearing],
    taken: list[Standing],
    thing: Laid,
    low: Floats,
    high: Floats,
) -> Standing | None:
    """The place next to a share of a straight that is on the bench, off stops, and cool; None when there is none."""
    shares = np.linspace(0.05, 0.95, TRIED)
    for part in shares[np.argsort(np.abs(shares - share), kind="stable")]:
        point = run.start + part * (run.end - run.start)
        at = point[:2]
        if ((at < low + BLOCK_HALF_MM) | (at > high - BLOCK_HALF_MM)).any():
            continue
        if float(beside.from_heat(point[None])[0]) < HEAT_MM:
            continue
        if any(np.linalg.norm(at - b.hole) < b.device.room + BLOCK_HALF_MM for b in bearings):
            continue
        if any(np.linalg.norm(at - other.at) < 2 * BLOCK_HALF_MM for other in taken):
            continue
        base = beside.below(at, thing.bottom, frozenset(thing.members))
        return Standing(at, run, run.bottom - base, base)
    return None
