"""The general arrangement."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

from fitwright.assess import Assessment
from fitwright.sheets.drawing import Drawing, Paper, TitleBlock, arrangement
from fitwright.sheets.packet.model import Page

# of the frame from the edge of the paper: the foot of the page stands in it [mm]
MARGIN = 15.0
UNITS = {"inch": "inches", "mm": "millimetres", "cm": "centimetres"}


def arrangement_drawing(assessment: Assessment, paper: Paper, made_on: date) -> Drawing:
    """Three views and an isometric with marks, on a sheet of this paper."""
    job = assessment.job
    block = TitleBlock(
        title="General arrangement",
        job=job.name,
        sheet=paper.name,
        date=made_on.isoformat(),
        units=UNITS[job.style.unit],
    )
    return arrangement(assessment.meshes, job.style, paper=replace(paper, margin=MARGIN), block=block)


def arrangement_page(whole: Drawing) -> Page:
    """The drawing as a page of its own."""
    return Page("arrangement", "General arrangement", {}, whole=whole)
