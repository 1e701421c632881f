"""How what moves a check is told."""

from __future__ import annotations

from dataclasses import dataclass
from urllib.parse import quote

from fitwright.findings import Finding
from fitwright.job.model import Job
from fitwright.sheets.wording import amount, fine
from fitwright.web.pages.why.moving import Move
from fitwright.web.words import plainly


@dataclass(frozen=True)
class MoveRow:
    """An input: its name, where it leads under the job, what is written, what was tried, and what came of it."""

    name: str
    to: str
    text: str
    instead: str
    value: str
    margin: str
    way: str


def move_row(move: Move, finding: Finding, job: Job) -> MoveRow:
    """One row."""
    path = move.source.path
    dim = path[0] == "dims"
    name = (
        plainly(str(path[1])) if dim else ", ".join(_step(step) for step in (path[1:] if path[0] == "parts" else path))
    )
    to = f"/why/dim/{quote(str(path[1]))}" if dim else f"/file?line={move.source.line}"
    value, margin = (
        "" if number is None else amount(number, finding.unit, fine(job.style)) for number in (move.value, move.margin)
    )
    way = "better" if move.more_margin > 0 else "worse"
    return MoveRow(name, to, move.source.text, move.instead, value, margin, way if finding.margin is not None else "")


def _step(step: str | int) -> str:
    return f"{step + 1}." if isinstance(step, int) else plainly(step)
