"""Clamps: opposite the stops, within their reach, from holes that nothing else needs."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from fitwright.making.bench.room import HEAT_MM, Obstacles
from fitwright.making.bench.setting import Bearing
from fitwright.making.bench.supports import Standing
from fitwright.shop import Bench, BenchClamp

Floats = NDArray[np.float64]

LEAST_MM = 25.0  # from the clamp's hole to its pad
FOOT_MM = 20.0  # half the room that a clamp's foot takes
NEAR_MM = 80.0  # pads of one part this near do the same; common practice
TRIED = 41


@dataclass(frozen=True, eq=False)
class Held:
    """A clamp settled: which, from where (2,), its pad (2,), and the bearing it is opposite of; place: column and row
    of its hole, None at the edge."""

    clamp: BenchClamp
    at: Floats
    pad: Floats
    bearing: Bearing
    place: tuple[int, int] | None


def clamps_of(
    bench: Bench,
    holes: Floats,
    corner: Floats,
    bearings: Sequence[Bearing],
    blocks: Sequence[Standing],
    beside: Obstacles,
) -> tuple[list[Held], int]:
    """Clamps for the bearings, and how many bearings none reaches.

    holes (c, r, 2); corner (2,): the bench's front left one; all in the pose's axes.

    One opposite each bearing while there are clamps enough, else one for each flank.
    """
    wanted = list(bearings)
    if len(wanted) > sum(clamp.count for clamp in bench.clamps):
        wanted = list({(b.flank.run.member, id(b.flank.run), b.flank.axis): b for b in bearings}.values())
    held: list[Held] = []
    missed = 0
    for bearing in wanted:
        if _holds_already(bearing, held, beside):
            continue
        found = _one(bench, holes, corner, bearing, bearings, blocks, beside, held)
        held += [found] if found else []
        missed += found is None
    return held, missed


def _holds_already(bearing: Bearing, held: Sequence[Held], beside: Obstacles) -> bool:
    """Whether a clamp on the same part presses so near that one does for both."""
    pad = _pad(bearing, beside)
    same = [h for h in held if h.bearing.flank.run.member == bearing.flank.run.member]
    return pad is not None and any(float(np.linalg.norm(h.pad - pad)) < NEAR_MM for h in same)


def _one(
    bench: Bench,
    holes: Floats,
    corner: Floats,
    bearing: Bearing,
    bearings: Sequence[Bearing],
    blocks: Sequence[Standing],
    beside: Obstacles,
    held: Sequence[Held],
) -> Held | None:
    pad = _pad(bearing, beside)
    if pad is None:
        return None
    for clamp in bench.clamps:
        if clamp.opening < bearing.flank.run.top or sum(h.clamp is clamp for h in held) >= clamp.count:
            continue
        place = _hole(clamp, holes, bearing, pad, bearings, blocks, beside, held) if clamp.holds == "hole" else None
        if place is not None:
            return Held(clamp, holes[place], pad, bearing, place)
        edge = _edge(clamp, corner, bench, pad) if clamp.holds == "edge" else None
        if edge is not None:
            return Held(clamp, edge, pad, bearing, None)
    return None


def _pad(bearing: Bearing, beside: Obstacles) -> Floats | None:
    """Where the pad presses: on the middle of the part beside the bearing, or the nearest cool place along it.

    The line of an angle is its heel: the middle lies beside it.
    """
    run = bearing.flank.run
    if run.way != "level":
        return None
    side = np.array([-run.along[1], run.along[0], 0.0])
    middle = (run.reach(side) - run.reach(-side)) / 2 * side
    points = run.start + middle + np.linspace(0.03, 0.97, TRIED)[:, None] * (run.end - run.start)
    points = points[np.argsort(np.linalg.norm(points[:, :2] - bearing.contact, axis=1), kind="stable")]
    cool = points[beside.from_heat(points) >= HEAT_MM]
    return np.asarray(cool[0, :2]) if len(cool) else None


def _hole(
    clamp: BenchClamp,
    holes: Floats,
    bearing: Bearing,
    pad: Floats,
    bearings: Sequence[Bearing],
    blocks: Sequence[Standing],
    beside: Obstacles,
    held: Sequence[Held],
) -> tuple[int, int] | None:
    """The hole nearest to the pad on the far side of the part from its stop."""
    flat = holes.reshape(-1, 2)
    away = np.linalg.norm(flat - pad, axis=1)
    good = (away >= LEAST_MM) & (away <= clamp.reach)
    good &= (flat - pad) @ bearing.flank.normal < 0.35 * away
    for near in np.flatnonzero(good):
        point = flat[near]
        good[near] = (
            all(_from_stop(point, b) >= b.device.room + FOOT_MM for b in bearings)
            and all(np.linalg.norm(point - s.at) >= 2 * FOOT_MM for s in blocks)
            and all(np.linalg.norm(point - h.at) >= 2 * FOOT_MM for h in held)
        )
    good &= beside.clearance(flat, clamp.opening) >= FOOT_MM / 2
    if not good.any():
        return None
    best = int(np.argmin(np.where(good, away + 0.2 * ((flat - pad) @ bearing.flank.normal), np.inf)))
    return best // holes.shape[1], best % holes.shape[1]


def _from_stop(point: Floats, bearing: Bearing) -> float:
    """Distance from a point (2,) to a stop and the block that may lie between it and the part [mm]."""
    run = bearing.contact - bearing.hole
    along = np.clip(float((point - bearing.hole) @ run) / max(float(run @ run), 1e-9), 0.0, 1.0)
    return float(np.linalg.norm(point - bearing.hole - along * run))


def _edge(clamp: BenchClamp, corner: Floats, bench: Bench, pad: Floats) -> Floats | None:
    """The point of the bench's edge from which a clamp reaches the pad; None where it does not."""
    far = corner + np.array([bench.length, bench.width])
    inside = [(pad[0] - corner[0], np.array([corner[0], pad[1]])), (far[0] - pad[0], np.array([far[0], pad[1]]))]
    inside += [(pad[1] - corner[1], np.array([pad[0], corner[1]])), (far[1] - pad[1], np.array([pad[0], far[1]]))]
    reach, point = min(inside, key=lambda pair: float(pair[0]))
    return np.asarray(point) if 0 <= reach <= clamp.reach else None
