"""Setting up without holes or without stops: bars clamped along two edges of the bench, and blocks from them."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from fitwright.making.bench.bearing import LEAST_BLOCK_MM, TOUCH_MM
from fitwright.making.bench.devices import Device
from fitwright.making.bench.flanks import Flank, Slot
from fitwright.making.bench.locating import conditioning, locating_jacobian
from fitwright.making.bench.pose import Posed
from fitwright.making.bench.room import HEAT_MM, Obstacles
from fitwright.making.bench.search import Way
from fitwright.making.bench.setting import Bearing, Setting, middle_of
from fitwright.shop import Bench

Floats = NDArray[np.float64]

INSET_MM = 50.0  # from the bench's edge to the bearing side of a bar clamped along it; common practice
BAR = "bar along the"
BAR_WIDTH_MM = 40.0
SHARES = {"first": (0.15, 0.85), "member": (0.2, 0.8), "second": (0.5,), "shape": (0.1, 0.9)}


def bar_setting(pose: Posed, slots: Sequence[Slot], bench: Bench, beside: Obstacles) -> Setting:
    """Every bearing on the bar along the left or the front edge, or on a block between a part and what faces it.

    Not a search: the outermost faces bear on the bars, each other face gets one block.
    """
    first = _bar_faces(slots)
    edge = np.array([_edge(bench, pose, axis, first[axis]) for axis in (0, 1)])
    chosen: list[Bearing | None] = []
    for number, slot in enumerate(slots):
        partner = chosen[slot.pair] if slot.pair is not None else None
        chosen.append(_bearing(number, slot, slots, first, beside, partner))
    way = Way((0.0, 0.0), (None, None), (), ())
    return Setting(way, edge, tuple(chosen), _value(pose, slots, chosen))


def _bar_faces(slots: Sequence[Slot]) -> tuple[float, float]:
    """Where the outermost faces lie that look to the left and to the front [mm]."""
    low = [
        min((f.at for s in slots for f in s.options if f.axis == axis and f.sign < 0), default=0.0) for axis in (0, 1)
    ]
    return low[0], low[1]


def _edge(bench: Bench, pose: Posed, axis: int, first: float) -> float:
    """The bench's low edge along an axis: the bar's inset before the first face, less where the parts hang over."""
    size = (bench.length, bench.width)[axis]
    inset = min(INSET_MM, max((size - float(pose.high[axis])) / 2, 0.0)) if pose.high[axis] < size else INSET_MM
    return first - inset


def _bearing(
    number: int,
    slot: Slot,
    slots: Sequence[Slot],
    first: tuple[float, float],
    beside: Obstacles,
    partner: Bearing | None,
) -> Bearing | None:
    best: tuple[float, Flank, str] | None = None
    for flank in [partner.flank] if partner is not None else slot.options:
        gap, source = _gap(flank, slot, slots, first)
        if gap is not None and (best is None or gap < best[0]):
            best = (gap, flank, source)
    if best is None:
        return None
    gap, flank, source = best
    device = Device(source, 0.0, 0.0, BAR_WIDTH_MM, BAR_WIDTH_MM / 2, flank.run.top, 1)
    along, hot = _along(flank, slot, beside, partner)
    hole = np.empty(2)
    hole[flank.axis], hole[1 - flank.axis] = flank.at + flank.sign * gap, along
    return Bearing(number, flank, device, gap, hole, along, hot)


def _gap(flank: Flank, slot: Slot, slots: Sequence[Slot], first: tuple[float, float]) -> tuple[float | None, str]:
    """The length of block between a face and what faces it, and what that is."""
    side = "left" if flank.axis == 0 else "front"
    if flank.sign < 0 and flank.at - first[flank.axis] < TOUCH_MM:
        return 0.0, f"{BAR} {side} edge"
    facing = [
        (flank.sign * (other.at - flank.at), other.run.mark)
        for s in slots
        for other in s.options
        if other.axis == flank.axis and other.sign == -flank.sign and _overlap(flank, other) > LEAST_BLOCK_MM
    ]
    ahead = [(gap, mark) for gap, mark in facing if gap >= LEAST_BLOCK_MM]
    if ahead:
        return min(ahead)
    if flank.sign < 0 and flank.at - first[flank.axis] >= LEAST_BLOCK_MM:
        return flank.at - first[flank.axis], f"{BAR} {side} edge"
    return None, ""


def _overlap(one: Flank, other: Flank) -> float:
    return min(one.high, other.high) - max(one.low, other.low)


def _along(flank: Flank, slot: Slot, beside: Obstacles, partner: Bearing | None) -> tuple[float, bool]:
    """A cool place along a flank: far from its partner, a bent leg's near its free end, else near a usual share."""
    along = flank.low + np.linspace(0.05, 0.95, 61) * max(flank.span, 1e-6)
    points = np.empty((len(along), 3))
    points[:, flank.axis], points[:, 1 - flank.axis], points[:, 2] = flank.at, along, flank.run.top
    cool = beside.from_heat(points) >= HEAT_MM
    usable = along[cool] if cool.any() else along
    if partner is not None:
        return float(usable[np.argmax(np.abs(usable - partner.along))]), not cool.any()
    run = flank.run
    free = run.start if run.first or not run.last else run.end
    target = float(free[1 - flank.axis]) if slot.role == "shape" else flank.low + SHARES[slot.role][0] * flank.span
    return float(usable[np.argmin(np.abs(usable - target))]), not cool.any()


def _value(pose: Posed, slots: Sequence[Slot], chosen: Sequence[Bearing | None]) -> float:
    """The smallest singular value of the base's bearings."""
    base = [b for b, s in zip(chosen, slots, strict=True) if b is not None and s.laid == pose.base.number]
    axes = {b.flank.axis for b in base}
    if len(axes) == 1:
        base += [b for b in chosen if b is not None and b.flank.axis not in axes][:1]
    if len(base) < 3:
        return 0.0
    centre, size = middle_of(pose)
    points, normals = np.array([b.contact for b in base]), np.array([-b.flank.normal for b in base])
    return conditioning(locating_jacobian(points, normals, centre, size))
