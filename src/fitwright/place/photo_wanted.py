"""What the photo of the old piece lacks, found without reading it: quick, and without what measuring needs."""

from __future__ import annotations

from fitwright.findings import Finding, Verdict
from fitwright.job.beside import Beside
from fitwright.job.model import Job

AREA = "photo"
SUBJECT = "old piece"


def photo_input_findings(job: Job, beside: Beside | None) -> list[Finding]:
    """What the photo lacks, found without reading the picture."""
    photo = job.photo
    if photo is None:
        return []
    missing = bool(photo.picture) and beside is not None and not beside.has(photo.picture)
    found = []
    if missing or (photo.size is None and not photo.picture):
        what = f"put {photo.picture} beside the job file" if photo.picture else "name the picture"
        found.append(_needs("picture beside the job", f"{what}, or measure without it by giving its size"))
    if not (photo.edges or photo.measures):
        found.append(
            _needs("marks on the photo", "mark edges that are parallel in reality, and what is to be measured")
        )
    elif not photo.known:
        found.append(
            _needs("known length", "give one length that is known, such as a brick: till then only proportions")
        )
    return found


def _needs(check: str, advice: str) -> Finding:
    return Finding(AREA, SUBJECT, check, Verdict.NEEDS_INPUT, advice=advice)
