"""General tolerances of welded work, where the job gives none of its own."""

from __future__ import annotations

from fitwright.checks.tables import rows
from fitwright.errors import FitwrightError

LINEAR_CLASS = "B"
STRAIGHTNESS_CLASS = "F"


class ToleranceError(FitwrightError, ValueError):
    """A size or a class that the table of general tolerances does not have."""


def linear_tolerance(nominal: float, grade: str = LINEAR_CLASS) -> float:
    """How far a welded length may be off, plus or minus [mm].

    nominal: [mm]; grade: A to D.

    Raises ToleranceError below 2 mm or for another class.
    Holds for lengths without a tolerance of their own. Source: ISO 13920:1996, Table 1.

    >>> linear_tolerance(864.0), linear_tolerance(1200.0)
    (3.0, 4.0)
    """
    return _looked_up("linear", nominal, grade)


def straightness_tolerance(longer_side: float, grade: str = STRAIGHTNESS_CLASS) -> float:
    """How far a welded part may be off straight, flat or parallel [mm].

    longer_side: of the surface [mm]; grade: E or F.

    Raises ToleranceError below 30 mm or for another class.
    Holds for parts without a tolerance of their own. Source: ISO 13920:1996, Table 3.

    >>> straightness_tolerance(864.0)
    3.0
    """
    return _looked_up("straightness", longer_side, grade)


def _looked_up(table: str, size: float, grade: str) -> float:
    found = [row for row in rows("iso13920") if row["table"] == table and row["class"] == grade]
    if not found:
        raise ToleranceError(
            f"ISO 13920 has no class {grade!r} for this: use A to D for lengths, E or F for straightness"
        )
    for row in found:
        if float(row["over"]) < size <= float(row["up_to"]) or size == float(row["over"]) == float(found[0]["over"]):
            return float(row["tolerance"])
    raise ToleranceError(f"ISO 13920 begins at {found[0]['over']} mm: {size} mm needs a tolerance of its own")
