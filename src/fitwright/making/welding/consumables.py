"""Filler, gas and arc time."""

from __future__ import annotations

from fitwright.making.welding.beads import deposit_of
from fitwright.making.welding.model import Used
from fitwright.mechanics.shrinkage import Bead, arc_time


def filler_needed(weld_metal: float, efficiency: float) -> float:
    """Filler to buy [kg] for weld metal laid down [kg] at a deposition efficiency (0 to 1).

    Source: ESAB, Calculating Filler Metal Consumption: P = W L / E.

    >>> round(filler_needed(0.0597 * 20, 0.95), 3)
    1.257
    """
    return weld_metal / efficiency


def fillet_metal(leg: float, density: float) -> float:
    """Weld metal in each length of a 45 degree fillet [kg/m]; leg [mm], density [kg/m3].

    Holds for a flat face. Source: half the square of the leg, as ESAB's weight tables have it.

    >>> round(fillet_metal(3.175, 7850), 3)
    0.04
    """
    return 0.5 * leg**2 * density * 1e-6


def used_by(bead: Bead, density: float) -> Used:
    """What one weld uses up; density of its metal [kg/m3].

    Gas flows while the arc burns; what is lost before and after each run is not in it.
    Holds for the section as drawn; a larger bead takes more. Source: travel speed as in `arc_time`, deposition
    efficiency and gas of the process, as its table has them.
    """
    process = bead.arc.process
    section, length = deposit_of(bead.seam, bead.leg), bead.seam.total * bead.share
    metal = section * length * density * 1e-9
    burning = arc_time(bead.arc, section, length)
    return Used(filler_needed(metal, process.kept), metal, process.gas * burning / 60, burning)
