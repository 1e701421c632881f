"""A printed page looked at as the maker would: pixels, dark runs along a line, the ticks of the check rulers."""

from __future__ import annotations

from pathlib import Path

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Grey = NDArray[np.uint8]
DPI = 600
MM = 25.4 / DPI
DARK = 128


def read(file: Path) -> Grey:
    """A binary PGM file (https://netpbm.sourceforge.net/doc/pgm.html) as rows of grey."""
    kind, width, height, _, rest = file.read_bytes().split(maxsplit=4)
    assert kind == b"P5"
    count = int(width) * int(height)
    return np.frombuffer(rest[-count:], dtype=np.uint8).reshape(int(height), int(width))


def runs(line: Grey) -> Floats:
    """First and one past the last place of each dark run along a line of pixels, (k, 2) [mm]."""
    edges = np.flatnonzero(np.diff(np.concatenate([[False], line < DARK, [False]]).astype(int)))
    return np.asarray(edges.reshape(-1, 2) * MM)


def ruler_row(grey: Grey) -> int:
    """The row of the line that the ruler across stands on: the only one that carries 97 ticks close below it."""
    for row in np.flatnonzero((grey < DARK).sum(axis=1) > 145 / MM):
        if len(runs(grey[row + round(1.5 / MM)])) >= 97 and len(runs(grey[row - round(1.5 / MM)])) >= 151:
            return int(row)
    raise AssertionError("no ruler on the page")


def ticks(line: Grey, count: int) -> Floats:
    return np.asarray(runs(line).mean(axis=1)[:count])
