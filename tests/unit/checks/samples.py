"""Small jobs for the tests of checks."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from fitwright.findings import Finding
from fitwright.job import load_job, parse_job
from fitwright.job.model import Job
from fitwright.piece import Piece, build

JOBS = Path(__file__).parent / "jobs"

TABLE = """
job: {{name: Table, unit: mm}}
brief:
  use: {use}
  loads: {{{loads}}}
  cautions: [{cautions}]
space: {{{space}}}
stock: {{frame: square tube 40 x 40 x 2, board: board 20 x 95 oak, sheet: plywood 12 mm birch, plate: plate 5 mm,
  thin: square tube 25 x 25 x 1,
  light: square tube 25 x 25 x 2 aluminium 6061}}
parts:
  leg:
    stock: frame
    path: [[20, 20, {foot}], [20, 20, 660]]
    ends: {{start: free, finish: auto}}
    mirror: {{x: 400, y: 200}}
  rail:
    stock: frame
    path: [[20, 20, 680], [20, 380, 680]]
    mirror: {{x: 400}}
{more}
"""


def table(
    more: str = "",
    *,
    loads: str = "",
    use: str = "a table",
    cautions: str = "",
    space: str = "",
    foot: str = "0",
) -> tuple[Job, Piece]:
    """Four legs of 40 mm tube, 800 by 400 mm over all, joined by two end rails with their tops at 700 mm."""
    text = TABLE.format(more=more, loads=loads, use=use, cautions=cautions, space=space, foot=foot)
    job = parse_job(text, "table.yaml")
    return job, build(job)


@cache
def demo(name: str) -> tuple[Job, Piece]:
    """A shipped example, built."""
    job = load_job(JOBS / f"{name}.yaml")
    return job, build(job)


def changed(name: str, *swaps: tuple[str, str]) -> tuple[Job, Piece]:
    """A shipped example with some of its text changed; every change must be one."""
    text = (JOBS / f"{name}.yaml").read_text(encoding="utf-8")
    for old, new in swaps:
        assert old in text
        text = text.replace(old, new)
    job = parse_job(text, name)
    return job, build(job)


def one(found: list[Finding], check: str) -> Finding:
    """The only finding whose check has these words in it."""
    named = [finding for finding in found if check in finding.check]
    assert len(named) == 1, [finding.check for finding in found]
    return named[0]
