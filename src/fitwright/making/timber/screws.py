"""Which screw: one that grips and does not come through the face that shows."""

from __future__ import annotations

import math

from fitwright.checks.wood_screws import BITE, COVER, diameter_of
from fitwright.making.timber.model import Screw
from fitwright.making.timber.tables import table
from fitwright.piece.model import Hardware
from fitwright.units import INCH, Unit

USUAL = 1  # of the gauges in the table, the middle one


def screw_for(passes: float, board: float, unit: Unit) -> Screw | None:
    """The longest screw sold that passes one piece and ends in a board without coming through; None where none grips.

    passes, board: thickness of what it passes and of the board that it ends in [mm].
    Holds for boards that show their far face: wood is left under it. Source: common practice, as the check has it.

    >>> screw_for(19.05, 19.05, "inch").label
    '#8 x 1 1/4'
    """
    longest, shortest = passes + board - COVER, passes + BITE * board
    fitting = [sold for sold in _sold(unit) if shortest - 1e-6 <= sold[1] <= longest + 1e-6]
    if not fitting:
        return None
    system = "inch" if unit == "inch" else "metric"
    gauge, diameter = table("screws")[system]["gauges"][USUAL]
    said, length = max(fitting, key=lambda sold: sold[1])
    return Screw(f"{gauge} x {said}", float(diameter), length, False, str(table("screws")[system]["basis"]))


def asked_screw(item: Hardware) -> Screw | None:
    """The screw that the job file gives; None when it says too little of it."""
    length, diameter = item.properties.get("length"), diameter_of(item)
    if length is None or diameter is None:
        return None
    label = str(item.properties.get("size") or item.label)
    return Screw(label, diameter, float(length), True, "the job file")


def drills(diameter: float, gravity: float | None, unit: Unit) -> tuple[float, float]:
    """Pilot and clearance drill [mm] of a screw: the pilot rounded down, the clearance up, to drills that are sold.

    Holds for wood screws in seasoned wood. Source: see the table.
    """
    holes = table("holes")
    share = holes["pilot_dense"] if gravity is not None and gravity > holes["dense"] else holes["pilot"]
    step = float(table("drills")["inch_step" if unit == "inch" else "metric_step"])
    pilot = math.floor(diameter * share / step + 1e-6) * step
    return pilot, math.ceil(diameter * holes["clearance"] / step - 1e-6) * step


def _sold(unit: Unit) -> list[tuple[str, float]]:
    screws = table("screws")
    if unit == "inch":
        return [(said, inches * INCH) for said, inches in screws["inch"]["lengths_in"]]
    return [(f"{length:g}", length) for length in screws["metric"]["lengths"]]
