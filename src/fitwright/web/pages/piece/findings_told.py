"""Findings as a page lists them: what is urgent first and in full, what holds behind it."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

from fitwright.findings import Finding, Verdict
from fitwright.sheets.wording import amount
from fitwright.units import Style

LACKS = re.compile(r"give ((\w+)(?:: \w+)?)")
PAGES = {"space": "/place#survey", "space: route": "/way-in"}


@dataclass(frozen=True)
class FindingTold:
    """A finding with its numbers in the job's units."""

    finding: Finding
    value: str
    limit: str
    given_at: str = ""
    """Where a missing input is given, below the job's address."""


@dataclass(frozen=True)
class FindingsTold:
    """All findings: those to act on, those that hold, and how many there are of each verdict."""

    urgent: tuple[FindingTold, ...]
    held: tuple[FindingTold, ...]
    counts: tuple[tuple[Verdict, int], ...]


def given_at(finding: Finding) -> str:
    """The page where the input that a finding lacks is given: survey, way in, else its lines in the job file."""
    lacks = LACKS.match(finding.advice)
    if finding.verdict is not Verdict.NEEDS_INPUT or lacks is None:
        return ""
    whole, first = lacks.groups()
    return PAGES.get(whole) or PAGES.get(first) or f"/file?find={first}"


def findings_told(findings: Sequence[Finding], style: Style) -> FindingsTold:
    """Findings, worst first, as a page lists them."""
    told = [
        FindingTold(one, amount(one.value, one.unit, style), amount(one.limit, one.unit, style), given_at(one))
        for one in findings
    ]
    counted = Counter(one.verdict for one in findings)
    return FindingsTold(
        tuple(one for one in told if one.finding.verdict is not Verdict.HOLDS),
        tuple(one for one in told if one.finding.verdict is Verdict.HOLDS),
        tuple((verdict, counted[verdict]) for verdict in Verdict if counted[verdict]),
    )
