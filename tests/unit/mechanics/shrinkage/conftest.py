"""Small welded frames."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from fitwright.job import parse_job
from fitwright.mechanics.framing import Framed, framed
from fitwright.mechanics.shrinkage import Bead, WeldKind, arc_for, seams
from fitwright.piece import Piece, build

HEAD = """job: {name: trial, unit: mm}
stock: {tube: round tube 30 x 2 mm, box: square tube 40 x 40 x 2}
"""

TEE = """parts:
  host: {stock: tube, path: [[-400, 0, 500], [400, 0, 500]], ends: free}
  leg: {stock: tube, path: [[0, 0, 0], [0, 0, 500]]}
"""
CROSS = """parts:
  host: {stock: tube, path: [[-400, 0, 500], [400, 0, 500]], ends: free}
  leg: {stock: tube, path: [[0, 0, 0], [0, 0, 500]]}
  post: {stock: tube, path: [[0, 0, 500], [0, 0, 1000]], ends: [auto, free]}
"""
TABLE = """parts:
  rail: {stock: tube, path: [[0, 0, 500], [800, 0, 500]], ends: free}
  leg: {stock: tube, path: [[100, 0, 0], [100, 0, 500]], repeat: {x: [0, 600]}}
  stretcher: {stock: tube, path: [[100, 0, 150], [700, 0, 150]]}
"""
BOX = """parts:
  frame:
    stock: box
    outside: [[0, 0, 20], [600, 0, 20], [600, 400, 20], [0, 400, 20]]
    closed: true
"""

Welded = Callable[[str], tuple[Framed, tuple[Bead, ...]]]


def piece_of(text: str) -> tuple[Piece, Framed]:
    job = parse_job(HEAD + text)
    piece = build(job)
    return piece, framed(piece, job)


def beads_of(piece: Piece, leg: float = 3.0) -> tuple[Bead, ...]:
    found = []
    for seam in seams(piece):
        area = leg * (leg + 0.5) if seam.kind is WeldKind.BUTT else 0.55 * leg**2
        found.append(Bead(seam, leg, area, arc_for("MIG", seam.thickness), 3, 6.0))
    return tuple(found)


@pytest.fixture(scope="session")
def welded() -> Welded:
    """A frame from job text in millimetres, and its beads with a leg of 3 mm."""

    def make(text: str) -> tuple[Framed, tuple[Bead, ...]]:
        piece, frame = piece_of(text)
        return frame, beads_of(piece)

    return make


@pytest.fixture(scope="session")
def tee(welded: Welded) -> tuple[Framed, tuple[Bead, ...]]:
    return welded(TEE)


@pytest.fixture(scope="session")
def table(welded: Welded) -> tuple[Framed, tuple[Bead, ...]]:
    return welded(TABLE)


@pytest.fixture(scope="session")
def cross(welded: Welded) -> tuple[Framed, tuple[Bead, ...]]:
    return welded(CROSS)


@pytest.fixture(scope="session")
def box(welded: Welded) -> tuple[Framed, tuple[Bead, ...]]:
    return welded(BOX)
