from __future__ import annotations

import pytest

from fitwright.checks.casters import caster_findings
from fitwright.findings import Verdict
from fitwright.units import GRAVITY, POUND
from tests.unit.checks.samples import changed, demo, one


def test_total_over_three() -> None:
    _, piece = demo("drying-rack")
    found = one(caster_findings(*demo("drying-rack")), "total over 3")
    total = piece.mass * GRAVITY + (4 * 30 + 60) * POUND * GRAVITY
    assert found.value == pytest.approx(total / 3)
    assert found.verdict is Verdict.FAILS


def test_two_diagonal_casters_bear_a_middle_load_alone() -> None:
    found = one(caster_findings(*demo("workbench")), "one off the floor")
    _, piece = demo("workbench")
    assert found.value == pytest.approx((piece.mass + 300 * POUND) * GRAVITY / 2, rel=1e-3)


def test_the_advised_rating_cures_it() -> None:
    advice = one(caster_findings(*demo("drying-rack")), "one off the floor").advice
    pounds = advice.split("rated for ")[1].split(" lb")[0]
    found = caster_findings(*changed("drying-rack", ("rated: 80 lb", f"rated: {pounds} lb")))
    assert one(found, "one off the floor").verdict is Verdict.HOLDS


def test_what_is_not_said_is_asked_for() -> None:
    found = caster_findings(*changed("drying-rack", ("rated: 80 lb, ", ""), ("brake: true, ", "")))
    assert one(found, "total over 3").verdict is Verdict.NEEDS_INPUT
    assert one(found, "brake").advice == "give parts: caster: caster: brake: true or false"
    assert "threshold" in one(found, "push that climbs").advice


def test_no_brakes_fail() -> None:
    found = one(caster_findings(*changed("drying-rack", ("brake: true", "brake: false"))), "brake")
    assert (found.verdict, found.value) == (Verdict.FAILS, 0)
