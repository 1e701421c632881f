"""Shapes of the sections about the making: subassemblies on the bench, and the steps that are done."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field

from fitwright.job.shape.values import NumberText, OneOf, PartName, Shape, Text, _told
from fitwright.job.subassemblies import FLIPS, UPS
from fitwright.job.written import Written

MomentText = Annotated[
    Written, _told("string", examples=["2027-02-03 09:10", "2027-02-03"], title="date, or date and time")
]


class SubassemblyShape(Shape):
    """subassemblies: parts tacked together in one set-up on the bench."""

    parts: Annotated[list[PartName], Field(min_length=1)] = Field(
        description="Names of parts (all their copies), of single copies such as hoop 2, or of earlier subassemblies."
    )
    up: Annotated[str, OneOf(UPS)] | None = Field(
        None, description="Which side of the piece faces up on the bench; found when not given."
    )
    flip: Annotated[str, OneOf(FLIPS)] | None = Field(None, description="When it is turned over; when tacked is usual.")


class ProgressShape(Shape):
    """progress: what is kept of one step of the build."""

    step: Text = Field(description="The step, as its card names it, such as bend A1.")
    hours: NumberText | None = Field(None, description="Hours worked on it so far.")
    since: MomentText | None = Field(None, description="When its timer was last started; left out while it stands.")
    done: MomentText | None = Field(None, description="When it was done.")
