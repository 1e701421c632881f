from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest

from fitwright.findings import Verdict
from fitwright.making.cutting import (
    Bar,
    Cut,
    SawnPiece,
    longest_finding,
    plan_cuts,
    proof_finding,
    sleeve_finding,
    turn_finding,
    waste_finding,
)
from fitwright.stock import parse_stock

BARS = [Bar("6 m", 6000.0, Decimal(30)), Bar("offcut", 7000.0, Decimal(0), 0)]


@pytest.mark.parametrize(
    ("length", "verdict"), [(5900.0, Verdict.HOLDS), (5988.0, Verdict.TIGHT), (5991.0, Verdict.FAILS)]
)
def test_longest_piece_against_longest_bar(length: float, verdict: Verdict) -> None:
    finding = longest_finding("frame", [Cut("A1", 300.0), Cut("A2", length)], BARS, 10.0)
    assert finding.verdict is verdict
    assert (finding.value, finding.limit) == (5990.0, length)
    assert "A2" in finding.check
    assert bool(finding.advice) == (verdict is not Verdict.HOLDS)


def test_waste_is_at_worst_tight() -> None:
    little = plan_cuts([Cut("A1", 2900.0, 2)], BARS)
    much = plan_cuts([Cut("A1", 260.0, 2)], [Bar("offcut", 800.0, Decimal(0), 1)])
    assert waste_finding("frame", little).verdict is Verdict.HOLDS
    finding = waste_finding("frame", much)
    assert finding.verdict is Verdict.TIGHT
    assert finding.value == pytest.approx(100 * (1 - 520 / 800))


def test_a_remnant_worth_keeping_is_no_waste() -> None:
    plan = plan_cuts([Cut("A1", 3100.0, 2)], BARS)
    assert [bar.remnant for bar in plan.bars] == [2900.0, 2900.0]
    assert waste_finding("frame", plan).value == pytest.approx(0.0)


def test_proof() -> None:
    plan = plan_cuts([Cut("A1", 2900.0, 2)], BARS)
    assert proof_finding("frame", plan).verdict is Verdict.HOLDS
    open_plan = replace(plan, bound=Decimal(28), proven=False)
    finding = proof_finding("frame", open_plan)
    assert (finding.verdict, finding.margin) == (Verdict.TIGHT, -2.0)


@pytest.mark.parametrize(
    ("sleeve", "verdict"),
    [
        ("round tube 28 x 2 mm", Verdict.HOLDS),  # bore 32 - 2 x 1.6 = 28.8 mm less the bead leaves about half a mm
        ("round tube 30 x 2 mm", Verdict.FAILS),
        ("round tube 25 x 2 mm", Verdict.TIGHT),
    ],
)
def test_sleeve_in_the_real_bore(sleeve: str, verdict: Verdict) -> None:
    finding = sleeve_finding(parse_stock(sleeve), parse_stock("round tube 32 x 1.6 mm"))
    assert finding.verdict is verdict
    assert "bead" in finding.formula
    assert finding.value is not None
    assert finding.value == pytest.approx(28.8 - 0.254 - float(sleeve.split()[2]), abs=1e-6)


def test_a_mitre_steeper_than_the_saw_turns_is_told() -> None:
    square, mitred = SawnPiece("A1", "frame", 300.0), SawnPiece("A2", "frame", 300.0, 0.0, -70.0)
    (finding,) = turn_finding("frame", [square, mitred], 60.0)
    assert finding.verdict is Verdict.FAILS
    assert (finding.value, finding.limit) == (70.0, 60.0)
    assert "clamp A2 against a wedge that takes up 10° and more" in finding.advice
    assert turn_finding("frame", [mitred], 75.0)[0].verdict is Verdict.HOLDS
    assert turn_finding("frame", [square], 60.0) == []


def test_a_mitre_as_steep_as_the_saw_turns_is_cut_though_its_points_were_rounded() -> None:
    """The third corner of a triangle of equal sides, typed as 519.615: 60.00003 degrees off square."""
    third = SawnPiece("A1", "frame", 300.0, 60.00003, 60.0)
    (finding,) = turn_finding("frame", [third], 60.0)
    assert (finding.verdict, finding.value) == (Verdict.HOLDS, 60.0)
    steeper = SawnPiece("A2", "frame", 300.0, 60.4)
    (finding,) = turn_finding("frame", [third, steeper], 60.0)
    assert finding.verdict is Verdict.FAILS
    assert "clamp A2 against a wedge that takes up 1° and more" in finding.advice
