"""Small job files as frames, for the tests of this room."""

from __future__ import annotations

from functools import cache

from fitwright.job import parse_job
from fitwright.job.model import Job
from fitwright.mechanics.framing import Framed, framed
from fitwright.piece import Piece, build

HEAD = """
job: {{name: trial, unit: mm}}
brief: {{loads: {{{loads}}}}}
space: {{{space}}}
stock: {{frame: square tube 40 x 40 x 2, tube: round tube 32 x 2, board: board 20 x 95 oak, sheet: plywood 12 mm birch,
  angle: angle 40 x 40 x 4, flat: flat 40 x 5}}
parts:
{parts}
"""
TABLE = """
  leg: {stock: frame, path: [[20, 20, 0], [20, 20, 700]], ends: free, mirror: {x: 400, y: 200}}
  rail: {stock: frame, path: [[20, 20, 600], [20, 380, 600]], mirror: {x: 400}}
  long: {stock: frame, path: [[20, 20, 600], [780, 20, 600]], mirror: {y: 200}}
"""
FLUSH = TABLE.replace("700]]", "620]]")
"""The same with the legs no higher than the rails."""


@cache
def made(parts: str, loads: str = "", space: str = "") -> tuple[Job, Piece]:
    """A job of these parts, and its piece."""
    job = parse_job(HEAD.format(parts=parts, loads=loads, space=space))
    return job, build(job)


@cache
def frame(parts: str, loads: str = "", space: str = "") -> Framed:
    """Its frame."""
    job, piece = made(parts, loads, space)
    return framed(piece, job)
