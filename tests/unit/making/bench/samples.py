"""Small jobs and benches for the tests of the bench trade."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

from fitwright.job import parse_job
from fitwright.job.model import Job
from fitwright.making.bench import BenchPlan, bench_plans
from fitwright.piece import Piece, build
from fitwright.shop import Bench, BenchClamp, BenchPin, BenchSquare, BenchStop, Shop, default_shop

HOOP = """
job: {{name: Hoop, unit: mm}}
stock: {{tube: round tube 30 x 2}}
parts:
  hoop:
    stock: tube
    outside: [[0, 0, 0], [0, 0, {height}], [{width}, 0, {height}], [{width}, 0, 0]]
    radius: 90
    repeat: {{y: [0]}}
"""

FRAME = """
job: {{name: Frame, unit: mm}}
stock: {{tube: square tube 40 x 40 x 2}}
parts:
  frame:
    stock: tube
    outside: [[0, 0, 20], [{width}, 0, 20], [{width}, {depth}, 20], [0, {depth}, 20]]
    closed: true
"""

STAND = """
job: {name: Stand, unit: mm}
stock: {tube: square tube 40 x 40 x 2, ledge: angle 30 x 30 x 3}
parts:
  base:
    stock: tube
    outside: [[0, 0, 20], [900, 0, 20], [900, 400, 20], [0, 400, 20]]
    closed: true
  top:
    stock: tube
    outside: [[0, 0, 720], [900, 0, 720], [900, 400, 720], [0, 400, 720]]
    closed: true
  post:
    stock: tube
    path: [[200, 20, 40], [200, 20, 700]]
    repeat: {x: {every: 200, count: 3}}
    mirror: {y: 200}
"""

PINS = (BenchPin("pin", 16, 50, 20), BenchPin("collar pin", 25, 50, 20))
STOPS = (BenchStop("stop", 25, 50, 50, 20, 25),)
SQUARES = (BenchSquare("square", 200, 150, 2), BenchSquare("tall square", 800, 300, 2))
CLAMPS = (BenchClamp("clamp", 150, 150, 20), BenchClamp("bar clamp", 120, 300, 10, "edge"))
TABLE = Bench("table", 1500, 1000, 900, 50, 16, 15, (25, 25), "front left", PINS, STOPS, SQUARES, CLAMPS)
BARE = replace(TABLE, hole_pitch=0.0, hole_diameter=0.0)


def shop_with(bench: Bench = TABLE) -> Shop:
    """The shipped metric shop with another bench."""
    return replace(default_shop("mm"), bench=bench)


@cache
def built(text: str) -> tuple[Job, Piece]:
    """The job of a text, and its piece."""
    job = parse_job(text)
    return job, build(job)


@cache
def planned(text: str, bench: Bench = TABLE) -> tuple[BenchPlan, ...]:
    """The plans of a text on a bench."""
    job, piece = built(text)
    return bench_plans(piece, job, shop_with(bench))


def hoop(width: float = 630.0, height: float = 900.0) -> str:
    """A bent hoop, outside sizes [mm]."""
    return HOOP.format(width=width, height=height)


def frame(width: float = 900.0, depth: float = 500.0) -> str:
    """A mitred frame, outside sizes [mm]."""
    return FRAME.format(width=width, depth=depth)
