"""A finding that lacks an input leads to the page where it is given."""

from __future__ import annotations

import pytest

from fitwright.findings import Finding, Verdict, needs_input
from fitwright.web.pages.piece.findings_told import findings_told, given_at
from tests.demos import assessed


@pytest.mark.parametrize(
    ("missing", "page"),
    [
        ("space: opening: width, depth, height", "/place#survey"),
        ("space: route: lift: load", "/way-in"),
        ("brief: loads: push: {force, height}", "/file?find=brief"),
        ("parts: caster: thread of its stem", "/file?find=parts"),
    ],
)
def test_a_missing_input_is_given_on_its_page(missing: str, page: str) -> None:
    assert given_at(needs_input("space", "opening", "gap", missing)) == page


def test_only_a_missing_input_leads_there() -> None:
    finding = Finding("space", "opening", "gap", Verdict.FAILS, basis="common practice", advice="give space: more room")
    assert given_at(finding) == ""
    told = findings_told(assessed("drying-rack").findings, assessed("drying-rack").job.style)
    assert all(one.given_at == "" for one in told.held)
