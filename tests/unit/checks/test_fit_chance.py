from __future__ import annotations

from dataclasses import replace

import pytest

from fitwright.checks.fit_chance import AREA, fit_chance_findings
from fitwright.findings import Finding, Verdict
from fitwright.mechanics.variation import Making, VirtualBuilds, virtual_builds, with_making
from fitwright.units import Style
from tests.unit.mechanics.variation.samples import RACK, TABLE, setting_of

METRIC = Style.metric()


def builds_of(text: str, **changes: bool) -> VirtualBuilds:
    making = replace(Making(stop_reach=1000.0), **changes)
    return virtual_builds(with_making(setting_of(text), making), 30_000)


def by_check(found: list[Finding]) -> dict[str, Finding]:
    return {finding.check: finding for finding in found}


def test_one_finding_for_each_demand() -> None:
    found = fit_chance_findings(builds_of(RACK), METRIC)
    assert [finding.area for finding in found] == [AREA] * 5
    assert all(finding.unit == "%" and finding.limit == 95 for finding in found)
    assert all(finding.formula.startswith("30,000 builds: ") for finding in found)


def test_without_a_survey_it_asks_for_one() -> None:
    found = fit_chance_findings(builds_of(TABLE), METRIC)
    assert found[0].verdict is Verdict.NEEDS_INPUT
    assert "space" in found[0].advice


@pytest.mark.parametrize(
    ("check", "words", "cure"),
    [
        ("chance that it stands without rocking", "shim", {"shim": True}),
        ("chance that every shelf drops in", "cut the shelves", {"fit_shelves": True}),
    ],
)
def test_the_advice_cures(check: str, words: str, cure: dict[str, bool]) -> None:
    before = by_check(fit_chance_findings(builds_of(RACK), METRIC))[check]
    assert before.verdict is Verdict.FAILS
    assert words in before.advice
    after = by_check(fit_chance_findings(builds_of(RACK, **cure), METRIC))[check]
    assert after.verdict is Verdict.HOLDS
    assert after.advice == ""


def test_advice_carries_the_chance_that_it_leaves() -> None:
    before = by_check(fit_chance_findings(builds_of(RACK), METRIC))["chance that it stands without rocking"]
    assert "shim it: 100%" in before.advice


def test_a_quick_estimate_names_what_decides() -> None:
    builds = replace(builds_of(RACK), changes=(), best=())
    found = by_check(fit_chance_findings(builds, METRIC))["chance that it stands without rocking"]
    assert found.advice.startswith("hold ")
