"""What all the checks of a demo have in common."""

from __future__ import annotations

import pytest

from fitwright.checks import static_findings
from fitwright.findings import Verdict
from tests.unit.checks.samples import demo


@pytest.mark.parametrize("name", ["drying-rack", "coat-rail", "workbench"])
def test_every_finding_says_why_and_what_to_do(name: str) -> None:
    found = static_findings(*demo(name))
    assert len({(f.area, f.subject, f.check) for f in found}) == len(found)
    for finding in found:
        assert finding.basis
        assert finding.formula or finding.verdict is Verdict.NEEDS_INPUT
        assert bool(finding.advice) == (finding.verdict is not Verdict.HOLDS)
        if finding.verdict in (Verdict.FAILS, Verdict.TIGHT):
            assert any(char.isdigit() for char in finding.advice)


def test_every_subject_speaks_up() -> None:
    areas = {f.area for name in ("drying-rack", "coat-rail", "workbench") for f in static_findings(*demo(name))}
    assert areas == {"stability", "casters", "threads", "timber", "welds"}
