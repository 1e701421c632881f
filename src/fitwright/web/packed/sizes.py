"""Dimension lines in the scene: overall width, depth and height, set off from the piece."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from fitwright.piece.model import Envelope
from fitwright.units import Style

Floats = NDArray[np.float64]

OFF = 0.07
"""How far a dimension line stands off, as a share of the piece's diagonal."""
TICK = 0.3
"""Length of the end ticks, as a share of how far the line stands off."""


@dataclass(frozen=True, eq=False)
class SizeLine:
    """One dimension: its words, where they stand (3,), and its lines (k, 2, 3) [mm]."""

    label: str
    at: Floats
    lines: Floats


def size_lines(box: Envelope, style: Style) -> tuple[SizeLine, ...]:
    """Width along the floor in front, depth along the floor on the right, height up the back left corner."""
    low, high = box.low, box.high
    off = OFF * float(np.linalg.norm(high - low))
    front, right = np.array([0.0, -off, 0.0]), np.array([off, 0.0, 0.0])
    return (
        _line("wide", low, np.array([high[0], low[1], low[2]]), front, style),
        _line("deep", np.array([high[0], low[1], low[2]]), np.array([high[0], high[1], low[2]]), right, style),
        _line("high", np.array([low[0], high[1], low[2]]), np.array([low[0], high[1], high[2]]), -right, style),
    )


def _line(word: str, start: Floats, finish: Floats, off: Floats, style: Style) -> SizeLine:
    return size_line(f"{style.length(float(np.linalg.norm(finish - start)))} {word}", start, finish, off)


def size_line(label: str, start: Floats, finish: Floats, off: Floats) -> SizeLine:
    """The dimension line of what lies between two points (3,), moved off it by (3,) [mm]."""
    one, other = start + off, finish + off
    ticks = [[point - TICK * off, point + TICK * off] for point in (one, other)]
    return SizeLine(label, (one + other) / 2, np.array([[one, other], *ticks]))
