"""Bending: from a member's path to the bend sheet, and what the die, the machine and the metal say about it."""

from fitwright.making.bending.errors import BendError
from fitwright.making.bending.findings import bend_findings
from fitwright.making.bending.model import BendSheet, BendStep, Collision, EndNeed, Trim
from fitwright.making.bending.question import bend_as_json, bend_from_legs, bend_from_points
from fitwright.making.bending.sheet import bend_sheet, bend_sheet_of
from fitwright.making.bending.springback import Springback, springback
from fitwright.making.bending.table import Bend, BendTable, path_of, table_of

__all__ = [
    "Bend",
    "BendError",
    "BendSheet",
    "BendStep",
    "BendTable",
    "Collision",
    "EndNeed",
    "Springback",
    "Trim",
    "bend_as_json",
    "bend_findings",
    "bend_from_legs",
    "bend_from_points",
    "bend_sheet",
    "bend_sheet_of",
    "path_of",
    "springback",
    "table_of",
]
