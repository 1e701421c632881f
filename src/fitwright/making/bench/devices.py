"""What the shop's bench has to bear on, and how its holes are named."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from fitwright.shop import Bench

Floats = NDArray[np.float64]


@dataclass(frozen=True)
class Device:
    """A pin or stop: from its hole to its face, how far the face can be set out, its width where it bears (0 for a
    pin), how much room it takes round its hole, its height, and how many there are [mm]."""

    name: str
    face: float
    farthest: float
    width: float
    room: float
    height: float
    count: int

    @property
    def round(self) -> bool:
        """Whether it is a pin."""
        return self.width == 0.0


def devices_of(bench: Bench) -> tuple[Device, ...]:
    """Pins and stops of a bench with holes; none without holes. Of equal ones the plentiful first."""
    if bench.hole_pitch <= 0:
        return ()
    pins = [Device(p.name, p.face, p.face, 0.0, p.diameter / 2, p.height, p.count) for p in bench.pins]
    stops = [Device(s.name, s.face, s.farthest, s.width, s.width / 2, s.height, s.count) for s in bench.stops]
    return tuple(sorted((*pins, *stops), key=lambda device: (not device.round, -device.count)))


def hole_places(bench: Bench) -> Floats:
    """Middles (columns, rows, 2) of the holes, from the front left corner of the bench [mm]."""
    along, across = bench.holes
    first = np.array(bench.first_hole)
    near_x, near_y = _counted_from(bench)
    x = first[0] + bench.hole_pitch * np.arange(along)
    y = first[1] + bench.hole_pitch * np.arange(across)
    x = x if near_x else bench.length - x[::-1]
    y = y if near_y else bench.width - y[::-1]
    return np.stack(np.meshgrid(x, y, indexing="ij"), axis=-1)


def hole_name(bench: Bench, column: int, row: int) -> str:
    """A hole by its place among `hole_places`: a letter along the length, a number across, from the named corner.

    The dash tells it from the mark of a part.

    >>> bench = Bench("table", 1500, 1000, 900, 50, 16, first_hole=(25, 25))
    >>> hole_name(bench, 2, 3), hole_name(bench, 26, 0)
    ('C-4', 'AA-1')
    """
    along, across = bench.holes
    near_x, near_y = _counted_from(bench)
    return f"{letters(column if near_x else along - 1 - column)}-{(row if near_y else across - 1 - row) + 1}"


def letters(number: int) -> str:
    """A, B, … Z, AA, AB …

    >>> letters(0), letters(25), letters(26), letters(701), letters(702)
    ('A', 'Z', 'AA', 'ZZ', 'AAA')
    """
    text = ""
    number += 1
    while number:
        number, rest = divmod(number - 1, 26)
        text = chr(ord("A") + rest) + text
    return text


def _counted_from(bench: Bench) -> tuple[bool, bool]:
    """Whether holes are counted from the left, and from the front."""
    return bench.corner.endswith("left"), bench.corner.startswith("front")
