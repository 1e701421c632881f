from __future__ import annotations

import numpy as np
import pytest

from fitwright.checks.held import hanging_pull
from fitwright.checks.tipping import stability_findings
from fitwright.findings import Verdict
from fitwright.job import parse_job
from fitwright.job.model import Job
from fitwright.piece import Piece, build
from fitwright.units import GRAVITY
from tests.unit.checks.samples import one, table

ANCHORS = """
  anchor:
    anchor: {{diameter: 8, length: 60{rated}}}
    at: [[20, 400, 690], [780, 400, 690]]
"""


def test_anchors_take_what_the_base_does_not() -> None:
    found = one(
        stability_findings(*table(ANCHORS.format(rated=", rated: 500 N"), loads="push: {force: 200 N, height: 600}")),
        "pull on each anchor",
    )
    _, piece = table(ANCHORS.format(rated=", rated: 500 N"))
    lacks = 200 * 600 - piece.mass * GRAVITY * 200
    assert found.value == pytest.approx(lacks / 690 / 2, rel=0.01)
    assert found.verdict is Verdict.HOLDS


def test_anchors_without_a_rating_are_asked_for() -> None:
    found = one(stability_findings(*table(ANCHORS.format(rated=""))), "pull on each anchor")
    assert found.verdict is Verdict.NEEDS_INPUT
    assert "parts: anchor: anchor: rated" in found.advice


def test_a_hanging_piece_pulls_by_its_weight_and_lever() -> None:
    job, piece = table(ANCHORS.format(rated=", rated: 20 N"), foot="300")
    pull, shear, _ = hanging_pull(job, piece)
    arm = np.hypot(*(piece.centre - np.array([400, 400, 0]))[:2])
    assert pull == pytest.approx(piece.mass * GRAVITY * arm / (690 - 300) / 2)
    assert shear == pytest.approx(piece.mass * GRAVITY / 2)
    found = one(stability_findings(job, piece), "hanging")
    assert found.verdict is Verdict.FAILS
    assert found.value == pytest.approx(np.hypot(pull, shear))


def test_a_wall_takes_away_its_direction() -> None:
    found = stability_findings(*table(space="walls: {back: 400}"))
    assert one(found, "held against tipping").verdict is Verdict.HOLDS
    assert "back" not in one(found, "slope").check
    assert "back" not in one(found, "slope").formula.split("toward each side")[1]


LADDER = """
job: {name: Ladder, unit: mm}
brief: {use: shelves}
space: {walls: {back: 600}}
stock: {frame: square tube 40 x 40 x 2}
parts:
  rail:
    stock: frame
    path: [[20, 20, 0], [20, FOOT, 1500]]
    ends: {start: level, finish: free}
    repeat: {x: [0, 400]}
  rung:
    stock: frame
    path: [[20, MIDDLE, 750], [420, MIDDLE, 750]]
"""


def ladder(top: float) -> tuple[Job, Piece]:
    """Two rails from y = 20 on the floor to `top` at 1500 mm, with a rung half way."""
    job = parse_job(LADDER.replace("FOOT", f"{top}").replace("MIDDLE", f"{(20 + top) / 2}"), "ladder.yaml")
    return job, build(job)


def test_a_ladder_that_leans_needs_friction() -> None:
    """Half way up, its weight lies half its lean beyond the feet: friction is half the lean over the height."""
    found = one(stability_findings(*ladder(580.0)), "leaning on the back wall")
    assert found.value == pytest.approx((300 - 40) / 1500, abs=0.015)
    assert found.verdict is Verdict.HOLDS


def test_loads_on_both_sides_of_the_anchors_balance() -> None:
    """A row of hooks pulls by how far it stands out, not by how wide it is."""
    hooks = "\n  hook:\n    stock: frame\n    path: [[100, 380, 680], [100, 300, 680]]\n    ends: free\n"
    pulls = []
    for more in ("    repeat: {x: [0, 600]}\n", "    repeat: {x: [300]}\n"):
        job, piece = table(ANCHORS.format(rated=", rated: 20 N") + hooks + more, foot="300", loads="hook: 60 N")
        weight = piece.mass * GRAVITY * float(piece.centre[1] - 400)
        pull, _, _ = hanging_pull(job, piece)
        pulls.append(pull * 2 * (690 - 300) / 1000 + weight / 1000)
    assert pulls[0] == pytest.approx(2 * pulls[1], rel=1e-6)
