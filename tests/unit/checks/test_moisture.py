from __future__ import annotations

import re

import pytest

from fitwright.checks.moisture import moisture_findings
from fitwright.findings import Verdict
from tests.unit.checks.samples import changed, demo, one, table


def test_slats_keep_their_gap() -> None:
    found = one(moisture_findings(*demo("drying-rack")), "gap")
    assert found.value == pytest.approx(38.1 - 88.9 * 0.00212 * 6)
    assert found.verdict is Verdict.HOLDS


def test_tight_slats_fail_and_the_advised_gap_cures_them() -> None:
    found = one(
        moisture_findings(*changed("drying-rack", ("  depth: 19\n", "  depth: 18\n"), ("gap: 1 1/2", "gap: 0"))), "gap"
    )
    assert found.verdict is Verdict.FAILS
    said = re.search(r"at least (\d+)/(\d+)", found.advice)
    assert said is not None
    assert float(said[1]) / float(said[2]) * 25.4 >= 88.9 * 0.00212 * 6 + 1.1


def test_a_slotted_top_holds_with_the_slot_it_needs() -> None:
    found = one(moisture_findings(*demo("workbench")), "slots")
    assert found.verdict is Verdict.HOLDS
    assert found.value == pytest.approx((13 - 6) * 25.4 * 0.00353 * 6)


def test_a_top_screwed_fast_fails() -> None:
    found = one(
        moisture_findings(*changed("workbench", ("slotted bracket with 1/4-20 bolt, lets the top move", "bolt"))),
        "slots",
    )
    assert found.verdict is Verdict.FAILS
    assert "slotted brackets" in found.advice


def test_a_fastened_top_without_fixings_asks() -> None:
    top = "\n  top:\n    solid: board\n    from: [0, 0, 700]\n    to: [800, 400, 700]\n    along: x\n    fastened: {}\n"
    found = one(moisture_findings(*table(top.format("screwed"))), "movement")
    assert found.verdict is Verdict.NEEDS_INPUT
    free = one(moisture_findings(*table(top.format("rests"))), "movement")
    assert free.verdict is Verdict.HOLDS
    assert free.value == pytest.approx(400 * 0.00369 * 6)


def test_plywood_keeps_still() -> None:
    top = "\n  top:\n    sheet: sheet\n    from: [0, 0, 700]\n    to: [800, 400, 700]\n"
    assert one(moisture_findings(*table(top)), "movement").verdict is Verdict.HOLDS


def test_outdoors_swings_further() -> None:
    out = changed("drying-rack", ("budget: 1400", "budget: 1400\n  cautions: [outdoors]"))
    assert one(moisture_findings(*out), "gap").value == pytest.approx(38.1 - 88.9 * 0.00212 * 10)
