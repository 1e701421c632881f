"""Setting up without holes or without stops: bars clamped along two edges of the bench, and blocks from them."""

from __future__ import annotations

from collections.abc import Sequence
from collections.abc import Set as AnySet
from dataclasses import dataclass

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
BAR_HEIGHT_MM = 90.0  # of a bar or a 2x4 on edge, and of a block against it; common practice
SHARES = {"first": (0.15, 0.85), "member": (0.2, 0.8), "second": (0.5,), "shape": (0.1, 0.9)}


def bar_setting(pose: Posed, slots: Sequence[Slot], bench: Bench, beside: Obstacles) -> Setting:
    """Every bearing on the bar along the left or the front edge, or on a block between a part and what faces it.

    Not a search: the outermost faces bear on the bars, each other face gets one block.
    """
    first = _bar_faces(slots)
    edge = np.array([_edge(bench, pose, axis, first[axis]) for axis in (0, 1)])
    rests = {k: rest for axis in (0, 1) for k, rest in _chain(slots, axis, first[axis]).items()}
    chosen: list[Bearing | None] = []
    for number, slot in enumerate(slots):
        partner = chosen[slot.pair] if slot.pair is not None else None
        rest = rests.get(number if slot.pair is None else slot.pair)
        chosen.append(None if rest is None else _bearing(number, slot, rest, beside, partner, _on_bench(bench, edge)))
    way = Way((0.0, 0.0), (None, None), (), ())
    return Setting(way, edge, tuple(chosen), _value(pose, slots, chosen))


def _bar_faces(slots: Sequence[Slot]) -> tuple[float, float]:
    """Where the outermost faces lie that look to the left and to the front [mm]."""
    low = [
        min((f.at for s in slots for f in s.options if f.axis == axis and f.sign < 0), default=0.0) for axis in (0, 1)
    ]
    return low[0], low[1]


def _edge(bench: Bench, pose: Posed, axis: int, first: float) -> float:
    """The bench's low edge along an axis: the bar's inset before the first face, or so far that nothing hangs over."""
    size = (bench.length, bench.width)[axis]
    spare = size - float(pose.high[axis])
    if spare < 0:
        return first - INSET_MM
    return min(first - min(INSET_MM, spare / 2), 0.0)


@dataclass(frozen=True, eq=False)
class Rest:
    """What a face rests on: through how long a block [mm], and on what; off: the number of the thing, -1 for a bar."""

    gap: float
    flank: Flank
    source: str
    off: int = -1


def _chain(slots: Sequence[Slot], axis: int, first: float) -> dict[int, Rest]:
    """On what each slot rests along an axis, by number, from the bar outward: what nothing holds yet bears nothing."""
    open_ = {k for k, s in enumerate(slots) if s.pair is None and any(f.axis == axis for f in s.options)}
    found: dict[int, Rest] = {}
    placed: set[int] = set()
    while True:
        ways = [
            (rest.gap, k, rest)
            for k in sorted(open_)
            for f in slots[k].options
            if f.axis == axis and (rest := _rest(f, slots, first, placed)) is not None
        ]
        if not ways:
            return found
        _, k, rest = min(ways, key=lambda way: way[:2])
        found[k] = rest
        open_.discard(k)
        placed.add(slots[k].laid)


def _rest(flank: Flank, slots: Sequence[Slot], first: float, placed: AnySet[int]) -> Rest | None:
    """What a face can rest on: the bar before it, or the nearest part before it where that is placed already."""
    side = "left" if flank.axis == 0 else "front"
    to_bar = flank.at - first if flank.sign < 0 else np.inf
    if to_bar < TOUCH_MM:
        return Rest(0.0, flank, f"{BAR} {side} edge")
    ahead = [
        (gap, s.laid, other.run.mark)
        for s in slots
        for other in s.options
        if other.axis == flank.axis and other.sign == -flank.sign and _overlap(flank, other) > LEAST_BLOCK_MM
        if (gap := flank.sign * (other.at - flank.at)) >= LEAST_BLOCK_MM
    ]
    if ahead:
        gap, laid, mark = min(ahead)
        return Rest(gap, flank, mark, laid) if laid in placed else None
    return Rest(to_bar, flank, f"{BAR} {side} edge") if LEAST_BLOCK_MM <= to_bar < np.inf else None


def _on_bench(bench: Bench, edge: Floats) -> Floats:
    """The bench's low and high corners (2, 2) in the pose's axes, less half the width of a bar."""
    far = edge + np.array([bench.length, bench.width])
    return np.array([edge + BAR_WIDTH_MM / 2, far - BAR_WIDTH_MM / 2])


def _bearing(
    number: int, slot: Slot, rest: Rest, beside: Obstacles, partner: Bearing | None, top: Floats
) -> Bearing | None:
    """A face settled; None where none of it is over the bench; top: the bench's corners (2, 2)."""
    flank, gap = rest.flank, rest.gap
    if _over(flank, top).size == 0:
        return None
    device = Device(rest.source, 0.0, 0.0, BAR_WIDTH_MM, BAR_WIDTH_MM / 2, flank.run.top, 1)
    along, hot = _along(flank, slot, beside, partner, top)
    hole = np.empty(2)
    hole[flank.axis], hole[1 - flank.axis] = flank.at + flank.sign * gap, along
    return Bearing(number, flank, device, gap, hole, along, hot, rest.off)


def _overlap(one: Flank, other: Flank) -> float:
    return min(one.high, other.high) - max(one.low, other.low)


def _over(flank: Flank, top: Floats) -> Floats:
    """Places along a flank that are over the bench [mm]."""
    along = flank.low + np.linspace(0.05, 0.95, 61) * max(flank.span, 1e-6)
    low, high = top[:, 1 - flank.axis]
    near, far = top[:, flank.axis] + BAR_WIDTH_MM / 2 * np.array([-1, 1])
    return np.asarray(along[(along >= low) & (along <= high) & (near <= flank.at <= far)])


def _along(flank: Flank, slot: Slot, beside: Obstacles, partner: Bearing | None, top: Floats) -> tuple[float, bool]:
    """A cool place along a flank: far from its partner, a bent leg's near its free end, else near a usual share."""
    along = _over(flank, top)
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
