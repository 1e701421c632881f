"""Kinds of line: how wide each is drawn, and how it is broken."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum


class LineKind(Enum):
    """What a line says."""

    VISIBLE = "visible"
    HIDDEN = "hidden"
    CENTRE = "centre"
    THIN = "thin"
    FRAME = "frame"


@dataclass(frozen=True)
class Pen:
    """Width and dashes [mm]; no dashes is a full line."""

    width: float
    dashes: tuple[float, ...] = ()


# ISO 128-2: line group with wide lines of 0.35 mm and narrow ones half as wide; dashes 12 d with gaps of 3 d, long
# dashes of 24 d with a dot of 0.5 d between gaps of 3 d, d the width of the line
WIDE = 0.35
NARROW = 0.18
PENS = {
    LineKind.VISIBLE: Pen(WIDE),
    LineKind.HIDDEN: Pen(NARROW, (12 * NARROW, 3 * NARROW)),
    LineKind.CENTRE: Pen(NARROW, (24 * NARROW, 3 * NARROW, 0.5 * NARROW, 3 * NARROW)),
    LineKind.THIN: Pen(NARROW),
    LineKind.FRAME: Pen(0.5),
}
