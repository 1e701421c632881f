from __future__ import annotations

import numpy as np
import pytest

from fitwright.checks.weld_line import around
from fitwright.checks.welds_loaded import weld_load_findings
from fitwright.job import parse_job
from fitwright.mechanics.loads import GRAVITY
from fitwright.piece import build
from tests.unit.checks.frames import demo, one, rack, results

BRACKET = """
job: {name: Bracket, unit: mm}
brief: {loads: {arm: 20 kg}}
stock: {post: square tube 60 x 60 x 3, arm: round tube 32 x 2}
parts:
  post: {stock: post, path: [[0, 0, 0], [0, 0, 800]], ends: free}
  base: {stock: post, path: [[30, 0, 30], [900, 0, 30]], ends: {start: auto, finish: free}}
  rear: {stock: post, path: [[-400, 0, 30], [-30, 0, 30]], ends: {start: free, finish: auto}}
  side: {stock: post, path: [[0, 30, 30], [0, 500, 30]], ends: {start: auto, finish: free}}
  other: {stock: post, path: [[0, -30, 30], [0, -500, 30]], ends: {start: auto, finish: free}}
  arm: {stock: arm, path: [[0, 0, 700], [430, 0, 700]], ends: {start: auto, finish: free}}
"""


def test_a_cantilever_by_hand() -> None:
    """A tube of 400 mm with its load along it: M = W L / 2 in the weld all round, V = W: Blodgett, weld as a line."""
    job = parse_job(BRACKET)
    made = (job, build(job))
    found = results(made)
    arm = one(weld_load_findings(job, found), "throat stress", "arm to post")
    line, leg = around(job.stock["arm"].section), 2.0
    weight = 20 * GRAVITY + job.stock["arm"].mass_per_m * 0.4 * GRAVITY
    pull, shear = found.magnified * weight * 200 / line.s_u, weight / line.length
    by_hand = np.hypot(pull, shear) / (0.7071 * leg)
    assert arm.value == pytest.approx(by_hand, rel=0.01)


def test_each_pair_of_parts_has_one_finding() -> None:
    made = rack()
    found = weld_load_findings(made[0], results(made))
    assert {f.subject for f in found} == {
        "ledge to leg (8 tees)",
        "leg to top (4 corners)",
        "leg to side (4 corners)",
    } or {f.subject.split(" (")[0] for f in found} >= {"ledge to leg"}
    assert all((f.limit or 0) > 0 for f in found)


def test_mitred_corners_are_drawn_out() -> None:
    job, piece = demo("workbench")
    found = weld_load_findings(job, results((job, piece)))
    corner = one(found, "throat stress", "top frame (4 corners)")
    section = job.stock["frame"].section
    drawn = around(section, np.pi / 4).length
    assert drawn > 1.15 * around(section).length
    assert f"{job.style.figure(drawn, 0)} of weld" in corner.formula


def test_a_crossing_is_welded_round_its_patch() -> None:
    bars = (
        "  strip: {stock: bar, path: [[0, 100, 1202.5], [800, 100, 1202.5]], wide: y, ends: free}\n"
        "  other: {stock: bar, path: [[300, 0, 1207.5], [300, 380, 1207.5]], wide: x, ends: free}"
    )
    made = rack("other: 5 kg", more=bars)
    found = weld_load_findings(made[0], results(made))
    crossing = one(found, "throat stress", "strip to other")
    assert "80 mm of weld" in crossing.formula
