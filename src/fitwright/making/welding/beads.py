"""The size, the settings and the tacks of each weld."""

from __future__ import annotations

import math

from fitwright.checks.fillets import Leg, leg
from fitwright.mechanics.shrinkage import Bead, Seam, WeldKind, arc_for

REINFORCED = 1.1
"""Section of a fillet as made over that of its triangle: a slightly full face (common practice)."""

TACK_MM = 6.0
TACK_WALLS = 3.0
TACK_EVERY_MM = 45.0
FEWEST_TACKS, MOST_TACKS = 2, 8


def bead_of(seam: Seam, process: str) -> Bead:
    """The bead for a seam: leg by thickness, section with the gap filled, settings, tacks.

    Raises ShrinkageError for a process that is not known.
    Holds for single-pass welds. Source: legs AISC 360 Table J2.4 and thin-wall practice (checks); a butt through the
    whole wall as wide as it is thick, plus its gap (common practice); tacks three walls long, one each 45 mm (common
    practice).
    """
    size = leg_of(seam)
    return Bead(
        seam=seam,
        leg=size.make,
        area=section_of(seam, size.make),
        arc=arc_for(process, seam.thickness),
        tacks=tacks_on(seam.total),
        tack_length=max(TACK_MM, TACK_WALLS * seam.thickness),
    )


def leg_of(seam: Seam) -> Leg:
    """Least, most and the leg to make [mm]; for a butt the wall itself."""
    if seam.kind is WeldKind.BUTT:
        return Leg(seam.thickness, seam.thickness, seam.thickness)
    return leg(seam.thickness)


def section_of(seam: Seam, size: float) -> float:
    """Cross-section of the weld [mm2].

    A fillet: its triangle, a little full, and the gap under it. A butt: the wall's thickness times its width, which is
    the thickness and the gap.
    """
    if seam.kind is WeldKind.BUTT:
        return size * (size + seam.mean_gap)
    triangle = 0.5 * size**2 * REINFORCED
    return triangle + seam.mean_gap * size


def deposit_of(seam: Seam, size: float) -> float:
    """Weld metal that is added, for each length [mm2]: a butt also fuses half of its section from the walls."""
    whole = section_of(seam, size)
    return whole / 2 if seam.kind is WeldKind.BUTT else whole


def tacks_on(length: float) -> int:
    """How many tacks a seam takes: one each 45 mm, at least two and no more than eight."""
    return min(MOST_TACKS, max(FEWEST_TACKS, math.ceil(length / TACK_EVERY_MM)))
