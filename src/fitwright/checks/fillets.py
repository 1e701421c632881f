"""Fillet welds: smallest and largest leg by thickness, and what a length of weld may carry."""

from __future__ import annotations

from dataclasses import dataclass
from math import sqrt

from fitwright.checks.tables import rows

THROAT = 1 / sqrt(2)  # of the leg, for a 45 degree fillet
THROAT_SHARE = 0.30  # of the filler's tensile strength
WALL_SHARE = 0.40  # of the wall's yield, in shear
THIN = 3.2  # mm: walls below this burn through before they take a leg much larger than themselves
LARGEST_ON_THIN = 1.5  # times the wall
LAP_EDGE = 1.6  # mm kept back from a square edge of 6 mm and more
THICKNESS_RATIO = 3.0


@dataclass(frozen=True)
class Filler:
    """A filler metal: its classification, tensile strength of the deposit [MPa], and where that is from."""

    name: str
    strength: float
    source: str


@dataclass(frozen=True)
class Leg:
    """The leg of a fillet [mm]: smallest, largest and the one to make."""

    least: float
    most: float
    make: float


def filler_for(kind: str) -> Filler | None:
    """The usual wire for a kind of metal (steel, stainless, aluminium); None for anything else."""
    row = next((row for row in rows("fillers") if row["kind"] == kind), None)
    return None if row is None else Filler(row["filler"], float(row["strength"]), row["source"])


def least_leg(thinner: float) -> float:
    """Smallest leg [mm] for the thinner part's thickness [mm]; never more than that thickness.

    Holds for single-pass welds with low-hydrogen processes. Source: AISC 360-05 Table J2.4.

    >>> least_leg(5.0), least_leg(2.1), least_leg(10.0)
    (3.0, 2.1, 5.0)
    """
    row = next(row for row in rows("min_fillet") if thinner <= float(row["up_to"]) + 1e-9)
    return min(float(row["leg"]), thinner)


def most_leg(thinner: float) -> float:
    """Largest leg [mm] that the thinner part's thickness [mm] bears.

    Under 3.2 mm one and a half times the wall, so that it is not burnt through; up to 6 mm the thickness itself along
    an edge, a half more elsewhere; above, 1.6 mm less than the edge.
    Source: thin wall: common practice; thick edges AISC 360-05 J2.2b (from memory).
    """
    if thinner < 6.0:
        return LARGEST_ON_THIN * thinner
    return max(thinner - LAP_EDGE, least_leg(thinner))


def leg(thinner: float) -> Leg:
    """The leg to make [mm]: as large as the thinner part is thick up to 3.2 mm (more adds no strength), else the least.

    Source: AISC 360-05 Table J2.4; a leg over the wall adds no strength since the wall itself shears first (AISC J4).
    """
    least, most = least_leg(thinner), most_leg(thinner)
    return Leg(least, most, min(most, max(least, min(thinner, THIN))))


def throat_allowable(filler: float) -> float:
    """Allowable stress on the throat [MPa] for a filler's tensile strength [MPa].

    Source: AISC ASD, AWS D1.1 Table 2.3: 0.30 FEXX, whatever the direction of the force.
    """
    return THROAT_SHARE * filler


def weld_capacity(leg_size: float, filler: float) -> float:
    """Allowable load of a fillet per length [N/mm] by its throat: 0.30 FEXX x 0.707 x leg.

    Source: Shigley, Mechanical Engineering Design, Table 9-6, after Blodgett.

    >>> round(weld_capacity(6.35, 482.633) / 175.1268, 2)
    3.71
    """
    return throat_allowable(filler) * THROAT * leg_size


def wall_capacity(thickness: float, fy: float) -> float:
    """Allowable shear of the wall beside a weld per length [N/mm], 0.40 Fy t.

    Holds for the parent metal as it is, not softened by the weld. Source: AISC ASD 1989 J4 (from memory).
    """
    return WALL_SHARE * fy * thickness


def line_capacity(leg_size: float, filler: float, walls: tuple[tuple[float, float], ...]) -> float:
    """Allowable load per length of weld [N/mm]: its throat or the weakest of the walls, each (thickness, fy)."""
    return min([weld_capacity(leg_size, filler), *(wall_capacity(t, fy) for t, fy in walls)])


def long_weld_factor(length: float, leg_size: float) -> float:
    """Share of an end-loaded fillet's length that works.

    Source: AISC 360-05 J2.2b: 1.2 - 0.002 l/w, at most 1; above 300 the effective length is 180 w.

    >>> round(long_weld_factor(150.0, 1.0), 3)
    0.9
    """
    ratio = length / leg_size
    return 180 / ratio if ratio > 300 else min(1.0, 1.2 - 0.002 * ratio)
