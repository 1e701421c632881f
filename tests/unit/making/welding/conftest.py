"""A small table and its weld plan."""

from __future__ import annotations

import pytest

from fitwright.job import parse_job
from fitwright.job.model import Job
from fitwright.making.welding import WeldPlan, weld_plan
from fitwright.mechanics.framing import Framed, framed
from fitwright.piece import Piece, build
from fitwright.shop import Shop, load_shop

TABLE = """job: {name: trial, unit: mm}
stock: {tube: round tube 30 x 2 mm, box: square tube 40 x 40 x 2, angle: angle 30 x 30 x 3}
parts:
  frame:
    stock: box
    outside: [[0, 0, 480], [700, 0, 480], [700, 500, 480], [0, 500, 480]]
    closed: true
  leg:
    stock: tube
    path: [[20, 20, 0], [20, 20, 480]]
    repeat: {x: [0, 660]}
    mirror: {y: 250}
  stretcher: {stock: tube, path: [[20, 20, 120], [20, 480, 120]], mirror: {x: 350}}
  brace: {stock: angle, path: [[20, 250, 120], [680, 250, 120]], legs: [up, front]}
"""


@pytest.fixture(scope="session")
def job() -> Job:
    return parse_job(TABLE)


@pytest.fixture(scope="session")
def shop() -> Shop:
    return load_shop(None)


@pytest.fixture(scope="session")
def piece(job: Job) -> Piece:
    return build(job)


@pytest.fixture(scope="session")
def frame(job: Job, piece: Piece) -> Framed:
    return framed(piece, job)


@pytest.fixture(scope="session")
def plan(piece: Piece, job: Job, frame: Framed, shop: Shop) -> WeldPlan:
    return weld_plan(piece, job, frame, shop)
