from __future__ import annotations

import re

import numpy as np
import pytest

from fitwright.checks.carried import bits, carried, loadings
from fitwright.checks.casters import caster_findings
from fitwright.checks.climbing import Rolling, climb_ratio, gap_drop, push_to_climb, push_to_tip
from fitwright.checks.footprint import reach
from fitwright.checks.standing import contacts
from fitwright.findings import Finding, Verdict
from fitwright.units import GRAVITY
from tests.unit.checks.samples import changed, one

BRIEF = ("budget: 1400", "budget: 1400\n  rolls_over: {{{}}}")


def crossing(*rolls_over: str, height: str = "48") -> list[Finding]:
    """Findings for the rack that has to cross what the brief says, pushed at a height [in]."""
    swap = (BRIEF[0], BRIEF[1].format(", ".join(rolls_over)))
    return caster_findings(*changed("drying-rack", swap, ("height: 48}", f"height: {height}}}")))


def test_a_half_inch_threshold_is_too_much_for_two_inch_wheels() -> None:
    found = one(crossing("threshold: 1/2 in"), "rolls it over toward the front")
    assert found.verdict is Verdict.FAILS
    assert "wheels of" in found.advice or "ramp" in found.advice


def test_no_threshold_holds() -> None:
    found = crossing("threshold: 0")
    assert {f.verdict for f in found if f.subject == "threshold"} == {Verdict.HOLDS}


def test_pushing_as_low_as_advised_no_longer_tips_it() -> None:
    found = one(crossing("threshold: 1/8 in"), "tips it over that which climbs, toward the front")
    assert found.verdict is Verdict.FAILS
    said = re.search(r'push lower, below ([\d /]+)"', found.advice)
    assert said is not None
    lower = one(crossing("threshold: 1/8 in", height=said[1]), "tips it over that which climbs, toward the front")
    assert lower.verdict is Verdict.HOLDS


def test_a_load_on_one_side_only_tips_it_sooner() -> None:
    """The shelves' front or back halves alone put the weight nearer to the wheels there."""
    found = one(crossing("threshold: 1/16 in"), "tips it over that which climbs, toward the front")
    job, piece = changed("drying-rack")
    own, loads, ways = piece.mass * GRAVITY, bits(carried(job, piece)), np.array([[0.0, -1.0], [0.0, 1.0]])
    left = []
    for there in loadings(loads):
        forces = loads.forces * there
        y = (own * piece.centre[1] + forces @ loads.points[:, 1]) / (own + forces.sum())
        left.append(float((reach(contacts(piece), ways) - ways[:, 1] * y).min()))
    assert min(left) < left[0] - 10
    said = re.search(r'x ([\d.]+)" / ', found.formula)
    assert said is not None
    assert float(said[1]) * 25.4 == pytest.approx(min(left), abs=1.5)


def test_wheels_as_large_as_advised_climb_without_tipping() -> None:
    """The wheel that the check of tipping advises cures both: it climbs, and it does not tip."""
    swap = (BRIEF[0], BRIEF[1].format("threshold: 1/8 in"))
    low = ("height: 48}", "height: 30}")
    found = one(caster_findings(*changed("drying-rack", swap, low)), "tips it over that which climbs, toward the front")
    assert found.verdict is Verdict.FAILS
    said = re.search(r'take wheels of ([\d /]+)"', found.advice)
    assert said is not None
    larger = caster_findings(*changed("drying-rack", swap, low, ("wheel: 2,", f"wheel: {said[1]},")))
    for check in ("rolls it over toward the front", "tips it over that which climbs, toward the front"):
        assert one(larger, check).verdict is Verdict.HOLDS


def test_a_gap_wider_than_the_tread_fails() -> None:
    found = one(crossing("threshold: 0", "gap: 1 in"), "tread over a gap")
    assert found.verdict is Verdict.FAILS
    assert one(crossing("threshold: 0", "gap: 1/2 in"), "tread over a gap").verdict is Verdict.HOLDS


def test_a_wheel_falls_into_a_gap_as_wide_as_itself() -> None:
    assert gap_drop(25.0, 50.0) == 25.0
    assert climb_ratio(25.0, 25.0) == float("inf")
    assert climb_ratio(25.0, 0.0) == 0.0


def test_a_high_push_never_climbs() -> None:
    high = Rolling(100.0, 200.0, 100.0, 25.0, 1500.0)
    assert push_to_climb(high, 10.0) == float("inf")
    assert push_to_tip(high) == pytest.approx(100 * 100 / 1475)
