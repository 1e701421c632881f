"""What every plan has to keep to, looked at from the drawn outlines alone."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from math import dist, hypot

from fitwright.making.bench import BenchPlan, Clamp, Stop
from fitwright.shop import Bench

Point = tuple[float, float]
NEAR = 0.15  # mm
LOW = 20.0  # a part whose underside is lower is in the way of a pin
ALONG_FACE = 21


def faults(plan: BenchPlan, bench: Bench) -> list[str]:
    """Stops that do not touch, that stand in a part, share a hole or have none; clamps out of reach or in the way."""
    found = [fault for stop in plan.stops for fault in _stop_faults(plan, stop)]
    found += [fault for clamp in plan.clamps for fault in _clamp_faults(plan, clamp, bench)]
    ats = [stop.at for stop in plan.stops] if plan.holes else []
    found += [f"hole {a} used twice" for k, a in enumerate(ats) if a in ats[:k]]
    return found


def to_line(point: Point, line: tuple[Point, ...]) -> float:
    """Distance from a point to a line through points."""
    return min(_to_segment(point, a, b) for a, b in pairwise(line))


def inside(point: Point, line: tuple[Point, ...]) -> bool:
    """Whether a closed line goes round a point."""
    x, y = point
    crossed = [
        x < a[0] + (y - a[1]) * (b[0] - a[0]) / (b[1] - a[1]) for a, b in pairwise(line) if (a[1] > y) != (b[1] > y)
    ]
    return sum(crossed) % 2 == 1


def _to_segment(point: Point, a: Point, b: Point) -> float:
    run = (b[0] - a[0], b[1] - a[1])
    square = run[0] ** 2 + run[1] ** 2 or 1.0
    part = min(max(((point[0] - a[0]) * run[0] + (point[1] - a[1]) * run[1]) / square, 0.0), 1.0)
    return hypot(point[0] - a[0] - part * run[0], point[1] - a[1] - part * run[1])


def _stop_faults(plan: BenchPlan, stop: Stop) -> Iterator[str]:
    mine = [line for o in plan.outlines if o.member == stop.member for line in o.lines]
    gap = min(to_line(point, line) for point in _face(stop) for line in mine)
    if gap > NEAR:
        yield f"{stop.kind} in {stop.hole} misses {stop.part} by {gap:.2f}"
    if not plan.holes:
        return
    if min(dist(stop.at, hole) for hole in plan.holes) > 1e-3:
        yield f"{stop.kind} at {stop.at} is in no hole"
    need = min(stop.reach, stop.width / 2 or stop.reach) - NEAR - 0.5
    for outline in (o for o in plan.outlines if o.low < LOW):
        for line in outline.lines:
            if inside(stop.at, line) or to_line(stop.at, line) < need:
                yield f"{stop.kind} in {stop.hole} stands in {outline.part}"


def _face(stop: Stop) -> list[Point]:
    """Points along what a stop, or its block, bears with."""
    (x, y), half = stop.contact, stop.width / 2
    across = (-stop.towards[1], stop.towards[0])
    shares = [half * (2 * k / (ALONG_FACE - 1) - 1) for k in range(ALONG_FACE)] if half else [0.0]
    return [(x + s * across[0], y + s * across[1]) for s in shares]


def _clamp_faults(plan: BenchPlan, clamp: Clamp, bench: Bench) -> Iterator[str]:
    kind = next(c for c in bench.clamps if c.name == clamp.kind)
    if dist(clamp.at, clamp.pad) > kind.reach + 1e-6:
        yield f"{clamp.kind} in {clamp.hole} does not reach its pad"
    mine = [line for o in plan.outlines if o.member == clamp.member for line in o.lines]
    if not any(inside(clamp.pad, line) for line in mine):
        yield f"{clamp.kind} in {clamp.hole} presses beside {clamp.part}"
    if kind.holds == "hole" and any(dist(clamp.at, s.at) < 10.0 for s in plan.stops):
        yield f"{clamp.kind} in {clamp.hole} stands on a stop"
