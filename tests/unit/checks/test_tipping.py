from __future__ import annotations

import re
from dataclasses import replace

import numpy as np
import pytest

from fitwright.checks.tipping import push_of, stability_findings
from fitwright.findings import Verdict
from fitwright.piece import Piece
from fitwright.units import INCH, POUND
from tests.unit.checks.samples import changed, demo, one, table


def spread(piece: Piece, apart: float) -> Piece:
    """The piece with its casters moved apart front to back [mm], half on each side."""
    middle = np.mean([item.at for item in piece.hardware if item.kind == "caster"], axis=0)
    moved = tuple(
        replace(item, at=item.at + np.array([0, np.sign(item.at[1] - middle[1]) * apart / 2, 0]))
        if item.kind == "caster"
        else item
        for item in piece.hardware
    )
    return replace(piece, hardware=moved)


def test_the_advice_on_casters_cures_the_rack() -> None:
    job, piece = demo("drying-rack")
    before = stability_findings(job, piece)
    assert {one(before, "slope").verdict, one(before, "push").verdict} == {Verdict.FAILS}
    said = re.search(r'set the casters (\d+)(?: (\d)/(\d))?" further apart front to back', one(before, "push").advice)
    assert said is not None
    apart = float(said[1]) + (float(said[2]) / float(said[3]) if said[2] else 0.0)
    after = stability_findings(job, spread(piece, apart * INCH))
    assert {one(after, "slope").verdict, one(after, "push").verdict} == {Verdict.HOLDS}
    less = stability_findings(job, spread(piece, apart * INCH - 8))
    assert Verdict.TIGHT in {one(less, "slope").verdict, one(less, "push").verdict}


def test_the_advice_on_ballast_cures_the_rack() -> None:
    job, piece = demo("drying-rack")
    advice = one(stability_findings(job, piece), "slope").advice
    said = re.search(r'lay ([\d.]+) lb in the middle, no higher than (\d+)(?: (\d+)/(\d+))?"', advice)
    assert said is not None
    mass = float(said[1]) * POUND
    low = (float(said[2]) + (float(said[3]) / float(said[4]) if said[3] else 0)) * INCH
    place = np.array([piece.centre[0], piece.centre[1], low])
    heavier = replace(
        piece, mass=piece.mass + mass, centre=(piece.mass * piece.centre + mass * place) / (piece.mass + mass)
    )
    after = stability_findings(job, heavier)
    assert {one(after, "slope").verdict, one(after, "push").verdict} == {Verdict.HOLDS}


def test_rail_alone_is_worse_for_the_slope_than_everything_loaded() -> None:
    job, piece = demo("drying-rack")
    assert "rail" in one(stability_findings(job, piece), "slope").formula
    without = replace(job, brief=replace(job.brief, loads=replace(job.brief.loads, on={"shelf": 133.0})))
    values = [one(stability_findings(j, piece), "slope").value for j in (job, without)]
    assert None not in values
    assert values[0] < values[1]  # type: ignore[operator]


def test_a_bench_pushed_as_hard_as_it_bears_is_tight_and_less_hard_holds() -> None:
    force = one(stability_findings(*demo("workbench")), "push").value
    assert force is not None
    pounds = force / 4.4482216
    tight = changed("workbench", ("push: {force: 60 lb", f"push: {{force: {pounds / 1.05:.2f} lb"))
    assert one(stability_findings(*tight), "push").verdict is Verdict.TIGHT
    easy = changed("workbench", ("push: {force: 60 lb", f"push: {{force: {pounds / 1.3:.2f} lb"))
    found = one(stability_findings(*easy), "push")
    assert (found.verdict, found.advice) == (Verdict.HOLDS, "")


def test_without_a_push_in_the_brief_a_published_one_is_taken() -> None:
    job, piece = demo("workbench")
    bare = replace(job, brief=replace(job.brief, loads=replace(job.brief.loads, push=None, push_height=None)))
    push = push_of(bare, piece)
    assert push.force == pytest.approx(44.5, abs=0.05)
    assert push.height == pytest.approx(35 * INCH)
    assert "F2057-23" in one(stability_findings(bare, piece), "push").basis


def test_a_light_low_piece_asks_for_the_push() -> None:
    found = one(stability_findings(*table()), "push")
    assert (found.verdict, found.advice) == (Verdict.NEEDS_INPUT, "give brief: loads: push: {force, height}")
    assert found.value == pytest.approx(21.7, abs=0.1)


def test_legs_on_the_floor_are_the_support() -> None:
    found = one(stability_findings(*table()), "slope")
    assert found.value == pytest.approx(np.degrees(np.arctan(200 / 405)), abs=0.1)


def test_a_load_beyond_the_feet_tips_it() -> None:
    shelf = """
  top:
    sheet: sheet
    from: [0, -300, 700]
    to: [800, 400, 700]
"""
    found = one(stability_findings(*table(shelf, loads="top: 300 kg")), "push")
    assert found.value is not None
    assert found.value < 0
    assert "part of top" in found.formula


def test_a_piece_on_nothing_says_so() -> None:
    found = one(stability_findings(*table(foot="50")), "stands on the floor")
    assert found.verdict is Verdict.FAILS
    assert "50.0 mm" in found.advice


def test_a_foot_that_hangs_free_fails() -> None:
    feet = """
  foot:
    foot: {height: 40, thread: M8}
    at: [[20, 20, 50], [20, 380, 50], [780, 20, 50], [780, 380, 50]]
"""
    found = one(stability_findings(*table(feet, foot="50")), "reaches the floor")
    assert found.verdict is Verdict.FAILS
    assert found.value == pytest.approx(10)
    assert "down by 10.0 mm" in found.advice
