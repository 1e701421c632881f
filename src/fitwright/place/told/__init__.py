"""What is found about the piece in its place, as findings."""

from __future__ import annotations

from fitwright.findings import Finding, needs_input
from fitwright.job.model import Job
from fitwright.piece import Piece
from fitwright.place.model import Fit
from fitwright.place.told.floor import floor_findings
from fitwright.place.told.gaps import gap_findings, match_findings, opening_findings
from fitwright.place.told.survey import survey_findings
from fitwright.place.told.use import use_findings

AREA = "space"

__all__ = ["space_findings"]


def space_findings(job: Job, piece: Piece, placed: Fit | None) -> list[Finding]:
    """The survey itself, gaps against those wanted, neighbours, the floor, and what has to stay possible."""
    found: list[Finding] = []
    if placed is None:
        found.append(needs_input(AREA, "opening", "gap on each side", "space: opening: width, depth, height"))
    else:
        found += [*gap_findings(job, placed), *floor_findings(job, piece, placed), *use_findings(job, piece, placed)]
        found += survey_findings(job)
    found += match_findings(job)
    return found + opening_findings(job, piece)
