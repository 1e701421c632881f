from __future__ import annotations

import pytest

from fitwright.checks.sway import COMFORT, sway_findings, sways
from fitwright.findings import Verdict
from tests.unit.checks.frames import one, rack, results


def test_a_symmetric_rack_sways_alike_both_ways() -> None:
    found = sways(results(rack()))
    assert set(found) == {"left", "right", "front", "back"}
    assert found["left"].movement == pytest.approx(found["right"].movement, rel=1e-3)
    assert found["front"].movement == pytest.approx(found["back"].movement, rel=1e-3)
    assert found["left"].movement * found["left"].stiffness == pytest.approx(80)


def test_the_sway_is_that_of_a_portal() -> None:
    """Two portals of 760 mm, feet pinned by friction, ledges across: P H^2 (H/Ic + L/2Ib) / 6E each, within 10 %."""
    made = rack("push: {force: 40 N, height: 1180}")
    job, found = made[0], results(made)
    stock = job.stock["frame"]
    e, i = stock.material.e, stock.section.i_u
    expected = 20 * 1180**2 / (6 * e) * (1180 / i + 760 / (2 * i))
    assert sways(found)["right"].movement == pytest.approx(expected, rel=0.10)


def test_findings_both_ways() -> None:
    made = rack()
    found = sway_findings(made[0], results(made))
    side = one(found, "sway sideways")
    assert side.limit == pytest.approx(1000 / COMFORT)
    assert "racking stiffness" in side.formula
    assert one(found, "sway front to back").verdict is Verdict.HOLDS


def test_a_piece_that_goes_over_fails() -> None:
    made = rack("shelf: 1 kg, push: {force: 200 N, height: 1100}")
    found = one(sway_findings(made[0], results(made)), "sway front to back")
    assert found.verdict is Verdict.FAILS
    assert "goes over" in found.advice
