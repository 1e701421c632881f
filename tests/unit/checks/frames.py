"""Small jobs as solved frames, for the tests of the strength checks."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from fitwright.checks.frame_findings import frame_findings, frame_results
from fitwright.checks.frame_results import FrameResults
from fitwright.findings import Finding
from fitwright.job import parse_job
from fitwright.job.model import Job
from fitwright.piece import Piece, build

EXAMPLES = Path(__file__).parents[3] / "examples"

RACK = """
job: {{name: Rack, unit: mm}}
brief: {{loads: {{{loads}}}, rules: {{safety: 1.67, tight: 10 %, sag: 240}}, rolls_over: {{{rolls_over}}}}}
space: {{{space}}}
stock: {{frame: {frame}, ledge: {ledge}, board: board 20 x 95 oak, bar: flat 20 x 5}}
parts:
  leg: {{stock: frame, path: [[20, 20, {foot}], [20, 20, 1200]], ends: free, mirror: {{x: 400, y: 200}}}}
  top: {{stock: frame, path: [[20, 20, 1180], [780, 20, 1180]], mirror: {{y: 200}}}}
  side: {{stock: frame, path: [[20, 20, 1180], [20, 380, 1180]], mirror: {{x: 400}}}}
  ledge: {{stock: ledge, path: [[20, 20, 300], [20, 380, 300]], repeat: {{z: [0, 400]}}, mirror: {{x: 400}}}}
  shelf: {{solid: board, from: [20, 50, 320], to: [780, 350, 320], along: x, repeat: {{z: [0, 400]}}}}
{more}
"""
WHEELS = (
    "  wheel: {caster: {label: wheel, wheel: 50, width: 20, height: 60, swivel: true, brake: true}, at: [20, 20, 60], "
    "mirror: {x: 400, y: 200}}"
)


@cache
def rack(
    loads: str = "shelf: 20 kg, push: {force: 80 N, height: 1000}",
    *,
    frame: str = "square tube 40 x 40 x 2",
    ledge: str = "square tube 40 x 40 x 2",
    rolls_over: str = "",
    space: str = "",
    more: str = "",
    foot: float = 0.0,
) -> tuple[Job, Piece]:
    """Four legs 1.2 m high, joined at the top, and two shelves on ledges."""
    text = RACK.format(loads=loads, frame=frame, ledge=ledge, rolls_over=rolls_over, space=space, more=more, foot=foot)
    job = parse_job(text)
    return job, build(job)


def results(made: tuple[Job, Piece]) -> FrameResults:
    """All cases of a job solved."""
    job, piece = made
    return frame_results(piece, job)


def findings(made: tuple[Job, Piece]) -> list[Finding]:
    """Everything that its frame has to say."""
    job, piece = made
    return frame_findings(piece, job)


def one(found: list[Finding], check: str, subject: str = "") -> Finding:
    """The one finding of this check about this subject."""
    (only,) = [f for f in found if f.check == check and subject in f.subject]
    return only


@cache
def demo(name: str, old: str = "", new: str = "") -> tuple[Job, Piece]:
    """A shipped job, with some words of its file exchanged."""
    text = (EXAMPLES / name / "job.yaml").read_text(encoding="utf-8")
    assert old in text
    job = parse_job(text.replace(old, new))
    return job, build(job)
