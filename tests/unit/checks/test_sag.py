from __future__ import annotations

import pytest

from fitwright.checks.sag import loaded_runs, sag_findings, sag_of
from fitwright.findings import Verdict
from fitwright.mechanics.loads import GRAVITY
from tests.unit.checks.frames import findings, one, rack, results

BAR = "  rod: {stock: bar, path: [[20, 200, 1180], [780, 200, 1180]], wide: z}"


def test_a_rail_sags_between_a_simple_and_a_clamped_beam() -> None:
    """5 w L^4 / 384 EI and a fifth of it: Wood Handbook, chapter 9; the joints of a frame lie between."""
    made = rack("rod: 5 kg", more=BAR)
    job, found = made[0], results(made)
    rod = one(sag_findings(job, found), "sag", "rod")
    stock = job.stock["bar"]
    span = 760.0 - 40.0
    line = (5 + stock.mass_per_m * span / 1000) * GRAVITY / span
    simple = 5 * line * span**4 / (384 * stock.material.e * stock.section.i_v)
    assert simple / 5 * 0.99 < (rod.value or 0) < simple
    assert rod.limit == pytest.approx(span / 240)
    assert "rod loaded" in rod.formula or "only rod" in rod.formula


def test_only_what_carries_something_is_looked_at() -> None:
    found = results(rack("shelf: 20 kg"))
    parts = {found.framed.lines[run.member].member.part for run in loaded_runs(found)}
    assert "ledge" in parts
    assert "top" not in parts
    assert "leg" not in parts


def test_an_overhang_is_reckoned_over_twice_its_length() -> None:
    arm = "  arm: {stock: frame, path: [[780, 200, 1180], [1180, 200, 1180]], ends: {start: auto, finish: free}}"
    made = rack("arm: 4 kg", more=arm)
    found = results(made)
    run = next(run for run in loaded_runs(found) if found.framed.lines[run.member].member.part == "arm")
    assert run.fixed == 0
    sag, span, _ = sag_of(found, run)
    assert span == pytest.approx(2 * 380)
    assert sag > 0


def test_too_much_sag_fails_and_says_what_cures_it() -> None:
    bad = one(findings(rack("rod: 20 kg", more=BAR.replace("wide: z", "wide: y"))), "sag", "rod")
    assert bad.verdict is Verdict.FAILS
    assert bad.advice
