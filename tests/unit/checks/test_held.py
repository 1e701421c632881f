from __future__ import annotations

import re

import pytest

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


def test_what_is_only_bought_holds_nothing() -> None:
    bought = "\n  anchor: {anchor: {diameter: 8, length: 60, rated: 500 N}, count: 2}"
    found = stability_findings(*table(bought, loads="push: {force: 200 N, height: 600}"))
    assert not [finding for finding in found if "anchor" in finding.check]
    assert one(found, "push that tips it").verdict is Verdict.FAILS


def test_anchors_in_the_floor_hold_down_from_the_far_side() -> None:
    """Two of four anchors lie at the edge about which it turns: the others pull with their distance from it."""
    floor = "\n  anchor: {anchor: {diameter: 8, length: 60, rated: 900 N}, at: [20, 20, 0], mirror: {x: 400, y: 200}}"
    job, piece = table(floor, loads="push: {force: 200 N, height: 600}")
    found = one(stability_findings(job, piece), "pull on each anchor")
    lacks = 200 * 600 - piece.mass * GRAVITY * 200
    assert found.value == pytest.approx(lacks * 380 / (2 * 380**2 + 2 * 20**2), rel=0.01)
    assert found.verdict is Verdict.HOLDS


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


def test_a_ladder_slides_sooner_with_its_upper_rung_loaded() -> None:
    """Its own weight lies half its lean beyond the feet, the rung's load at three quarters: the moments add up."""
    rung = LADDER.replace("750", "1125").replace("MIDDLE", f"{20 + 0.75 * 560}")
    job = parse_job(rung.replace("use: shelves", "loads: {rung: 300 N}").replace("FOOT", "580"), "ladder.yaml")
    piece = build(job)
    found = one(stability_findings(job, piece), "leaning on the back wall")
    own, feet = piece.mass * GRAVITY, 40.0
    beyond = (own * (piece.centre[1] - feet) + 300 * (0.75 * 560 + 20 - feet)) / (own + 300)
    assert found.value == pytest.approx(beyond / 1500, abs=0.015)


def test_an_anchor_at_the_top_of_what_leans_is_not_asked_to_hold_what_the_wall_does() -> None:
    """The ladder fails only sideways, by a little: a fixing has to hold what the advice said, and no more."""
    top = "  anchor: {anchor: {size: M6 x 40, rated: 60 N}, at: [220, 600, 1490]}\n"
    text = LADDER.replace("use: shelves", "loads: {rung: 500 N}").replace("FOOT", "580").replace("MIDDLE", "300")
    loose = one(stability_findings(*_made(text)), "slope at which it tips")
    said = re.search(r"good for at least ([\d.]+) N", loose.advice)
    assert said is not None
    held = one(stability_findings(*_made(text + top)), "pull on each anchor")
    assert (held.value or 0.0) <= float(said[1])


def _made(text: str) -> tuple[Job, Piece]:
    job = parse_job(text, "ladder.yaml")
    return job, build(job)


def test_advice_leaves_out_a_push_that_does_not_count() -> None:
    """A light piece is not held to the published push: nothing is said of how far its feet would have to go for it."""
    found = one(stability_findings(*ladder(580.0)), "slope at which it tips")
    assert "front to back" not in found.advice
