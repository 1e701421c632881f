"""Sheets of paper, and which way their readers project."""

from __future__ import annotations

from dataclasses import dataclass, replace

from fitwright.sheets.drawing.directions import Projection
from fitwright.sheets.drawing.scales import Practice


@dataclass(frozen=True)
class Paper:
    """A sheet [mm], the margin round its frame, and the practice of the region that uses it."""

    name: str
    width: float
    height: float
    projection: Projection
    practice: Practice
    margin: float = 10.0

    def turned(self) -> Paper:
        """The same sheet lying the other way."""
        return replace(self, width=self.height, height=self.width)


# ANSI/ASME Y14.1 and Y14.3: Letter, third-angle; ISO 216 and ISO 5456-2: A sizes, where first-angle is usual
LETTER = Paper("Letter", 215.9, 279.4, Projection.THIRD_ANGLE, "inch")
A4 = Paper("A4", 210.0, 297.0, Projection.FIRST_ANGLE, "metric")
A3 = Paper("A3", 297.0, 420.0, Projection.FIRST_ANGLE, "metric")
