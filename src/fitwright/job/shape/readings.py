"""Shape of one reading: what was measured on the real parts, what it came to, and when."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field

from fitwright.job.readings import EXAMPLES
from fitwright.job.shape.values import DateText, Shape, Text, _told
from fitwright.job.written import Written

MeasuredText = Annotated[Written, _told("string", examples=list(EXAMPLES), title="what is measured")]
ValueText = Annotated[
    Written, _told("string", "number", examples=["91.2", "31 5/8", "803.5 mm", "3 mil"], title="length or angle")
]


class ReadingShape(Shape):
    """readings: one measurement."""

    of: MeasuredText = Field(description="What was measured, such as bend 2 of A1 or width at the top of hoop 1.")
    value: ValueText = Field(alias="is", description="What it came to: a length, for a bend an angle in degrees.")
    when: DateText | None = Field(None, description="The day.")
    within: ValueText | None = Field(None, description="How nearly it was measured (95 %), where not as usual.")
    step: Text | None = Field(None, description="The step of the build that asked for it.")
    note: Text | None = Field(None, description="Anything worth keeping.")
