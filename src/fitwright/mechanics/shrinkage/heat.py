"""How much heat a weld puts into the work."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from fitwright.mechanics.shrinkage.errors import ShrinkageError
from fitwright.mechanics.shrinkage.tables import rows


@dataclass(frozen=True)
class Process:
    """A way of welding: share of the arc's heat that goes into the work, weld metal [mm3/(s A)], kept share, gas
    [l/min]."""

    name: str
    efficiency: float
    deposit: float
    kept: float
    gas: float


@dataclass(frozen=True)
class Arc:
    """What the arc is set to: current [A], voltage [V], and the travel speed [mm/s] of an easy hand on such a wall."""

    process: Process
    current: float
    voltage: float
    speed: float

    @property
    def deposit_rate(self) -> float:
        """Weld metal laid down [mm3/s]."""
        return self.process.deposit * self.current

    def speed_on(self, area: float) -> float:
        """Travel speed [mm/s] on a weld of section `area` [mm2]: that of the hand, or slower where it has to fill."""
        return min(self.speed, self.deposit_rate / area)


def process_called(words: str) -> Process:
    """The process that a shop file calls so.

    Raises ShrinkageError listing what is accepted.
    """
    wanted = words.strip().lower()
    for row in rows("processes"):
        if wanted in row["words"].split("|"):
            numbers = (float(row[key]) for key in ("efficiency", "deposit", "kept", "gas"))
            return Process(row["process"], *numbers)
    known = ", ".join(row["process"] for row in rows("processes"))
    raise ShrinkageError(f"welding process {words!r} is not known: write one of {known}")


def arc_for(process: str, thickness: float) -> Arc:
    """Usual settings for a wall [mm]: between the rows of the table on a line, beyond them at its ends.

    Raises ShrinkageError for a thickness that is not above 0, or a process that is not known.
    Holds for steel of 1 to 6 mm in flat position; the setting of one welder differs from another's by a quarter.
    Source: data/settings.csv, with the source of each row.

    >>> arc_for("MIG", 1.6).current
    105.0
    """
    if not thickness > 0:
        raise ShrinkageError(f"a wall of {thickness} mm: give a thickness above 0")
    found = process_called(process)
    table = [row for row in rows("settings") if row["process"] == found.name]
    at = np.array([float(row["thickness"]) for row in table])
    columns = (np.array([float(row[key]) for row in table]) for key in ("current", "voltage", "speed"))
    current, voltage, speed = (float(np.interp(thickness, at, column)) for column in columns)
    return Arc(found, current, voltage, speed)


def heat_input(arc: Arc, area: float) -> float:
    """Heat that goes into the work for each length of weld of cross-section `area` [mm2], [J/mm].

    q = efficiency x U I / speed; the speed is that of the table, or slower where the section takes longer to fill.

    Raises ShrinkageError for an area that is not above 0.
    Holds for welds by hand in one pass. Source: heat input as TWI and EN 1011-1 define it, k U I / v.

    >>> round(heat_input(arc_for("MIG", 1.6), 4.5))
    167
    """
    return arc.process.efficiency * arc.voltage * arc.current / _speed(arc, area)


def arc_time(arc: Arc, area: float, length: float) -> float:
    """Time that the arc burns on a weld of section `area` [mm2] and a length [mm], [s].

    Raises ShrinkageError for an area that is not above 0.
    Holds for runs without stops. Source: length over travel speed, as in `heat_input`.
    """
    return length / _speed(arc, area)


def _speed(arc: Arc, area: float) -> float:
    if not area > 0:
        raise ShrinkageError(f"a weld section of {area} mm2: give an area above 0")
    return arc.speed_on(area)
