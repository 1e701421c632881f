"""Where a stop in a hole can bear on a flank, for every way the holes can lie under the parts."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from fitwright.making.bench.devices import Device
from fitwright.making.bench.flanks import Flank, Slot
from fitwright.making.bench.room import HEAT_MM, Obstacles

Floats = NDArray[np.float64]
Bools = NDArray[np.bool_]

TOUCH_MM = 0.1  # a gap this small is none: finer than a hole's own fit; common practice
LEAST_BLOCK_MM = 12.0  # a block shorter than this is hard to cut and to hold; common practice
BEARS_MM = 5.0  # a stop reaches at least this far up a part, and a flat face overlaps this much; common practice
SHORT_PITCHES = 2.0  # a longer flank has a row of holes beside it wherever the holes lie
FINE_MM = 1.0
ROOM_MM = 0.5  # how close a stop may stand to a part that it does not bear on


@dataclass(frozen=True, eq=False)
class Grid:
    """How holes lie: their pitch [mm], how many along x and y, and the bench's edges from its first hole."""

    pitch: float
    count: tuple[int, int]
    first: tuple[float, float]
    size: tuple[float, float]


def phases(
    slots: Sequence[Slot], devices: Sequence[Device], pitch: float, axis: int, beside: Obstacles, heats: Sequence[float]
) -> Floats:
    """Where the lines of holes across an axis can lie so that something changes there (k,) [mm, 0 to pitch].

    That is where some stop bears without a block, and where a hole comes to lie beside a short flank or leaves it. The
    least number of blocks is reached at one of these: between two of them no stop touches anything new.
    """
    found: list[float] = []
    for slot, heat in zip(slots, heats, strict=True):
        for flank in slot.options:
            for device in devices:
                if flank.axis == axis:
                    found.append((flank.at + flank.sign * device.face) % pitch)
                elif flank.span < SHORT_PITCHES * pitch:
                    found += [at % pitch for at in _window(flank, device, beside, heat)]
    kept: list[float] = []
    for phase in sorted(found):
        if not kept or phase - kept[-1] > TOUCH_MM / 4:
            kept.append(phase)
    return np.array(kept or [0.0])


def _window(flank: Flank, device: Device, beside: Obstacles, heat: float) -> list[float]:
    """The ends of each stretch along a flank from which a stop can bear on it [mm], to a millimetre."""
    along = np.arange(*_reach(flank, device), FINE_MM)
    if not suits(flank, device) or not len(along):
        return []
    good = clear(flank, device, along, 0.0, beside, heat)
    change = np.flatnonzero(np.diff(np.concatenate([[False], good, [False]]).astype(int)))
    return [
        float(along[k]) for a, b in zip(change[::2], change[1::2], strict=True) for k in {a, (a + b - 1) // 2, b - 1}
    ]


def suits(flank: Flank, device: Device) -> bool:
    """Whether a stop is tall enough for a flank, and no pin where only tips would bear."""
    return device.height >= flank.run.bottom + BEARS_MM and not (device.round and flank.hollow)


def _reach(flank: Flank, device: Device) -> tuple[float, float]:
    """From where to where a hole can be along a flank for a stop to bear on it at all [mm]."""
    if device.round:
        edge = min(BEARS_MM, flank.span / 2)
        return flank.low + edge, flank.high - edge + 1e-6
    need = min(2 * BEARS_MM, flank.span)
    return flank.low - device.width / 2 + need, flank.high + device.width / 2 - need + 1e-6


def gaps(flank: Flank, device: Device, phases_: Floats, pitch: float) -> Floats:
    """What lies between the face of a stop and a flank (k,) for each phase of the holes along the flank's axis [mm].

    0 where they touch; else at least the length of the shortest block, from the nearest hole that leaves so much.
    """
    gap = (flank.sign * (phases_ - flank.at) - device.face) % pitch
    gap = np.where((gap < TOUCH_MM) | (gap > pitch - TOUCH_MM), 0.0, gap)
    return np.asarray(np.where((gap > 0) & (gap < LEAST_BLOCK_MM), gap + pitch, gap))


def rows_for(flank: Flank, device: Device, phase: float, pitch: float, beside: Obstacles, heat: float) -> Floats:
    """Places along a flank (n,) [mm] of holes from which a stop can bear on it, clear of welds and other parts."""
    if not suits(flank, device):
        return np.empty(0)
    low, high = _reach(flank, device)
    first, last = int(np.ceil((low - phase) / pitch - 1e-9)), int(np.floor((high - phase) / pitch + 1e-9))
    along = np.asarray(phase + pitch * np.arange(first, last + 1), dtype=np.float64)
    return along[clear(flank, device, along, 0.0, beside, heat)] if len(along) else along


def how_many_rows(
    flank: Flank, device: Device, phases_: Floats, pitch: float, beside: Obstacles, heat: float
) -> NDArray[np.int64]:
    """How many places `rows_for` finds for each of several phases (k,)."""
    low, high = _reach(flank, device)
    if not suits(flank, device) or high < low:
        return np.zeros(len(phases_), dtype=np.int64)
    steps = np.arange(np.floor(low / pitch) - 1, np.ceil(high / pitch) + 1)
    along = phases_[:, None] + pitch * steps
    inside = (along >= low - 1e-9) & (along <= high + 1e-9)
    inside[inside] = clear(flank, device, along[inside], 0.0, beside, heat)
    return np.asarray(inside.sum(axis=1))


def clear(flank: Flank, device: Device, along: Floats, gap: float, beside: Obstacles, heat: float) -> Bools:
    """Whether a stop (and its block of length gap) at places along a flank (n,) is clear of parts and welds (n,)."""
    contact = _points(flank, along, 0.0)
    hole = _points(flank, along, device.face + gap)
    high = np.full((len(along), 1), min(flank.run.top, max(device.height, flank.run.bottom)))
    cool = beside.from_heat(np.hstack([contact, high])) >= heat
    # a pin touches the part that it bears on; any other has to keep off
    free = beside.clearance(hole, device.height, flank.run) >= device.room - TOUCH_MM
    own = beside.clearance(hole, device.height) >= min(device.face, device.room) - ROOM_MM
    for share in (0.3, 0.7) if gap else ():
        middle = _points(flank, along, gap * share)
        free &= beside.clearance(middle, device.height, flank.run) >= BEARS_MM
    return np.asarray(cool & free & own)


def _points(flank: Flank, along: Floats, off: float) -> Floats:
    """Points (n, 2) at places along a flank, `off` in front of it [mm]."""
    points = np.empty((len(along), 2))
    points[:, flank.axis] = flank.at + flank.sign * off
    points[:, 1 - flank.axis] = along
    return points


def hole_points(flank: Flank, device: Device, along: Floats, gap: float) -> Floats:
    """Middles (n, 2) of the holes of stops at places along a flank [mm]."""
    return _points(flank, along, device.face + gap)


def usable(slot: Slot, devices: Sequence[Device], beside: Obstacles) -> float:
    """The distance to keep from welds: the usual one, or none where that leaves no place at all to bear from [mm]."""
    for flank in slot.options:
        for device in devices:
            if _window(flank, device, beside, HEAT_MM):
                return HEAT_MM
    return 0.0
