"""What a bend does to the wall: thinner outside, thicker inside, and the section flatter."""

from __future__ import annotations

import csv
import math
from dataclasses import dataclass
from functools import cache
from importlib import resources
from itertools import pairwise


@dataclass(frozen=True)
class WallRow:
    """One radius of a thinning table; walls in mm, `table` None below its range of 3 diameters.

    asme_outer, asme_inner: factors on the wall that pressure needs, outside and inside of the bend.
    """

    radius: float
    diameters: float
    outer_wall: float
    inner_wall: float
    thinned: float
    asme_outer: float
    asme_inner: float
    table: float | None


def outer_wall(wall: float, od: float, radius: float) -> float:
    """Wall on the outside of a bend [mm], from the constant volume of the mid-wall fibre: t R / (R + (D - t) / 2).

    wall, od, radius (centreline) in mm.

    Holds for bends without axial push or pull and with the neutral axis on the centreline; real rotary-draw bends
    scatter a few percent.
    Source: constancy of volume (beam kinematics), mid-wall radius.

    >>> round(outer_wall(0.065, 1.25, 4.5), 5)
    0.05744
    """
    return wall * radius / (radius + (od - wall) / 2)


def inner_wall(wall: float, od: float, radius: float) -> float:
    """Wall on the inside of a bend [mm], from constant volume: t R / (R - (D - t) / 2).

    Holds for: as `outer_wall`, and no wrinkling. Source: as `outer_wall`.
    """
    return wall * radius / (radius - (od - wall) / 2)


def asme_outer_factor(radius: float, od: float) -> float:
    """Factor on the wall that internal pressure needs, outside of a bend: (4R/D + 1) / (4R/D + 2).

    Holds for pressure pipe; here a second opinion only. Source: ASME B31.3, 304.2.1; ASME B31.1, 102.4.5.
    """
    ratio = 4 * radius / od
    return (ratio + 1) / (ratio + 2)


def asme_inner_factor(radius: float, od: float) -> float:
    """Factor on the wall that internal pressure needs, inside of a bend: (4R/D - 1) / (4R/D - 2).

    Holds for R above D / 2; pressure pipe, here a second opinion only.
    Source: ASME B31.3, 304.2.1; ASME B31.1, 102.4.5.
    """
    ratio = 4 * radius / od
    return (ratio - 1) / (ratio - 2)


def wall_before_bending(radius: float, od: float) -> float | None:
    """Recommended wall before bending over the wall needed after it; None below 3 diameters, where the table ends.

    Between the rows straight-line; above 6 diameters the last value is kept.
    Holds for R of 3 diameters and more. Source: ASME B31.1, table 102.4.5.
    """
    rows = _wall_table()
    diameters = radius / od
    if diameters < rows[0][0] - 1e-9:
        return None
    for (left, high), (right, low) in pairwise(rows):
        if diameters <= right:
            return high + (low - high) * (diameters - left) / (right - left)
    return rows[-1][1]


def thinning_table(wall: float, od: float, radii: tuple[float, ...]) -> tuple[WallRow, ...]:
    """The wall at each centreline radius [mm] by constant volume, with the ASME factors beside it."""
    return tuple(_row(wall, od, radius) for radius in radii)


def outer_strain(od: float, radius: float) -> float:
    """Stretch of the outermost fibre, (D / 2) / R.

    Holds for the neutral axis on the centreline. Source: beam kinematics.

    >>> round(outer_strain(1.25, 4.5), 4)
    0.1389
    """
    return od / 2 / radius


def ovality(largest: float, smallest: float, od: float) -> float:
    """Out of round, (Dmax - Dmin) / D, as a fraction.

    Source: definition, as used with the limit of 8 % in ASME B31.3, 332.2.1.

    >>> round(ovality(1.29, 1.20, 1.25), 3)
    0.072
    """
    return (largest - smallest) / od


def expected_ovality(od: float, radius: float) -> float:
    """Out of round to expect after bending without a mandrel in a grooved die, D / (5 R), as a fraction.

    The wall does not enter: thin wall does worse, thick wall better; measure one bend.
    Holds for round tube, R of about 2 to 6 diameters, D/t up to about 25.
    Source: from memory: 20 D/R percent, the limit set for bends of boiler tube in European rules.
    """
    return od / (5 * radius)


@cache
def _wall_table() -> tuple[tuple[float, float], ...]:
    """(radius in diameters, factor), by rising radius."""
    text = (resources.files(__package__) / "data" / "wall_before_bending.csv").read_text(encoding="utf-8")
    rows = csv.reader(line for line in text.splitlines()[2:] if line)
    return tuple(sorted((float(diameters), float(factor)) for diameters, factor in rows))


def _row(wall: float, od: float, radius: float) -> WallRow:
    outside = outer_wall(wall, od, radius)
    return WallRow(
        radius,
        radius / od,
        outside,
        inner_wall(wall, od, radius),
        1 - outside / wall,
        asme_outer_factor(radius, od),
        asme_inner_factor(radius, od) if radius > od / 2 else math.inf,
        wall_before_bending(radius, od),
    )
