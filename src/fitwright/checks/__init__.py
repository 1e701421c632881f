"""Checks of a job: one file a subject, each giving findings."""

from __future__ import annotations

from fitwright.checks.casters import caster_findings
from fitwright.checks.cautions import caution_findings
from fitwright.checks.moisture import moisture_findings
from fitwright.checks.shelves import shelf_findings
from fitwright.checks.spacing import spacing_findings
from fitwright.checks.threaded import thread_findings
from fitwright.checks.tipping import stability_findings
from fitwright.checks.welds import weld_findings
from fitwright.checks.wood_screws import screw_findings
from fitwright.findings import Finding
from fitwright.job.model import Job
from fitwright.piece.model import Piece

__all__ = ["static_findings"]

SUBJECTS = (
    stability_findings,
    caster_findings,
    thread_findings,
    shelf_findings,
    spacing_findings,
    moisture_findings,
    screw_findings,
    weld_findings,
    caution_findings,
)


def static_findings(job: Job, piece: Piece) -> list[Finding]:
    """All checks that need no frame model: stability, casters, threads, timber, weld sizes, cautions."""
    return [finding for subject in SUBJECTS for finding in subject(job, piece)]
