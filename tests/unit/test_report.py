"""The report is an interface: it keeps to its schema and says what was computed."""

from __future__ import annotations

import json

import pytest
from jsonschema import Draft202012Validator

from fitwright.assess.sawing import SPARE
from fitwright.report import report, report_schema
from tests.demos import NAMES, assessed


@pytest.mark.parametrize("name", NAMES)
def test_keeps_to_its_schema(name: str) -> None:
    told = json.loads(json.dumps(report(assessed(name))))
    Draft202012Validator.check_schema(report_schema())
    assert [error.message for error in Draft202012Validator(report_schema()).iter_errors(told)] == []


def test_members_of_the_rack_by_hand() -> None:
    """Ledges: depth less two tubes, 25 1/2 - 2 x 1 1/8. Ties cope into the tubes by half a tube at each end."""
    told = {row["mark"]: row for row in report(assessed("drying-rack"))["members"]}
    assert told["A1"]["quantity"] == 2
    assert told["B1"]["quantity"] == 8
    assert told["B1"]["cut_length_mm"] == pytest.approx(23.25 * 25.4, abs=1e-3)
    assert told["C1"]["cut_length_mm"] == pytest.approx((25.5 - 2.25 + 1.125) * 25.4, abs=1e-3)
    assert [end["kind"] for end in told["C1"]["ends"]] == ["cope", "cope"]


def test_mass_is_the_sum_of_what_is_listed() -> None:
    told = report(assessed("drying-rack"))
    members = sum(row["mass_kg"] * row["quantity"] for row in told["members"])
    panels = sum(row["mass_kg"] * row["quantity"] for row in told["panels"])
    hardware = sum(row["mass_kg"] * row["quantity"] for row in told["hardware"])
    assert members + panels + hardware == pytest.approx(told["piece"]["mass_kg"], rel=1e-4)


def test_plan_cuts_every_sawn_piece() -> None:
    told = report(assessed("workbench"))
    cuts = [cut["mark"] for bar in told["cutting_plan"]["bars"] for cut in bar["cuts"]]
    cut = sorted(mark for mark in cuts if mark != SPARE)
    wanted = sorted(row["mark"] for row in told["members"] for _ in range(row["quantity"])) + sorted(
        board["mark"] for panel in told["panels"] for board in panel["boards"] for _ in range(board["quantity"])
    )
    assert cut == sorted(wanted)
    listed = sum(row["quantity"] for row in told["cut_list"])
    assert listed == len(cuts)
    assert told["cutting_plan"]["proven"]
    assert told["cutting_plan"]["cost"] == told["cutting_plan"]["bound"]


def test_loads_tell_the_worst_stress_of_every_member() -> None:
    """The worst of a part's members is the value of its finding, and no case is worse than the governing one."""
    rack = assessed("drying-rack")
    told = report(rack)["loads"]
    worst: dict[str, float] = {}
    for row in told["members"]:
        worst[row["mark"]] = max(row["stress_mpa"], worst.get(row["mark"], 0.0))
    for found in rack.findings:
        if found.check == "stress" and found.subject.endswith("(B1)"):
            assert worst["B1"] == pytest.approx(found.value, abs=1e-3)
    cases = {case["name"]: case for case in told["cases"]}
    assert told["governing"] in cases
    assert cases["own weight"]["stress_mpa"] < cases["all loads on"]["stress_mpa"]


def test_feet_carry_the_piece_by_its_own_weight() -> None:
    """Statics: what the feet press is what the piece weighs."""
    told = report(assessed("workbench"))
    own = next(case for case in told["loads"]["cases"] if case["name"] == "own weight")
    assert sum(foot["press_n"] for foot in own["feet"]) == pytest.approx(told["piece"]["mass_kg"] * 9.80665, rel=0.02)


def test_welds_carry_their_runs_and_movements_their_range() -> None:
    told = report(assessed("coat-rail"))
    runs = sorted(order for weld in told["welds"] for order in weld["order"])
    assert runs == [run["number"] for run in told["welding"]["runs"]]
    assert sum(weld["tacks"] for weld in told["welds"]) == len(told["welding"]["tacks"])
    for group in told["welding"]["groups"]:
        assert group["movement_proposed_mm"] <= group["movement_listed_mm"]
        for movement in group["largest_proposed"]:
            assert movement["low_mm"] < movement["likely_mm"] < movement["high_mm"]


def test_chances_tell_what_decides_and_what_would_change() -> None:
    told = report(assessed("drying-rack"))["chances"]
    assert [row["chance"] for row in told] == sorted(row["chance"] for row in told)
    for row in told:
        assert 0 < len(row["deciders"]) <= 3
        assert sum(one["share"] for one in row["deciders"]) <= 1 + 1e-6
        assert all(0 <= one["chance"] <= 1 for one in row["changes"])
    assert any(row["changes"] for row in told)
