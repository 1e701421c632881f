"""The report is an interface: it keeps to its schema and says what was computed."""

from __future__ import annotations

import json

import pytest
from jsonschema import Draft202012Validator

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
    cut = sorted(cut["mark"] for bar in told["cutting_plan"]["bars"] for cut in bar["cuts"])
    wanted = sorted(row["mark"] for row in told["members"] for _ in range(row["quantity"])) + sorted(
        board["mark"] for panel in told["panels"] for board in panel["boards"] for _ in range(board["quantity"])
    )
    assert cut == sorted(wanted)
    assert told["cutting_plan"]["proven"]
    assert told["cutting_plan"]["cost"] == told["cutting_plan"]["bound"]
