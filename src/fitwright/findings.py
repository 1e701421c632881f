"""What one check says: value, limit, margin, verdict, basis, advice (design: three verdicts and `needs input`)."""

from __future__ import annotations

from dataclasses import dataclass, replace
from enum import StrEnum


class Verdict(StrEnum):
    """How a check came out; ordered by urgency in `URGENCY`."""

    FAILS = "fails"
    NEEDS_INPUT = "needs input"
    TIGHT = "tight"
    HOLDS = "holds"


URGENCY = tuple(Verdict)


@dataclass(frozen=True)
class Finding:
    """The result of one check on one subject.

    value, limit: in `unit`; None when the check lacks an input or has no number.
    margin: how far the value is on the good side of the limit, in `unit`; negative when it fails.
    basis: the published source of the rule, or "common practice", or "from memory".
    advice: what to do, in words; empty when it holds.
    formula: the rule as one line of arithmetic with the numbers put in, for "why?".
    """

    area: str
    subject: str
    check: str
    verdict: Verdict
    value: float | None = None
    limit: float | None = None
    margin: float | None = None
    unit: str = ""
    basis: str = "common practice"
    advice: str = ""
    formula: str = ""


def at_least(
    area: str,
    subject: str,
    check: str,
    value: float,
    limit: float,
    unit: str,
    *,
    tight: float,
    basis: str,
    advice: str = "",
    formula: str = "",
) -> Finding:
    """A finding for a value that must not be less than its limit; tight: the margin below which it is tight [unit]."""
    return _judged(
        Finding(area, subject, check, Verdict.HOLDS, value, limit, value - limit, unit, basis, advice, formula), tight
    )


def at_most(
    area: str,
    subject: str,
    check: str,
    value: float,
    limit: float,
    unit: str,
    *,
    tight: float,
    basis: str,
    advice: str = "",
    formula: str = "",
) -> Finding:
    """A finding for a value that must not exceed its limit; tight: the margin below which it is tight [unit]."""
    return _judged(
        Finding(area, subject, check, Verdict.HOLDS, value, limit, limit - value, unit, basis, advice, formula), tight
    )


def needs_input(area: str, subject: str, check: str, missing: str, *, basis: str = "common practice") -> Finding:
    """A check that cannot be made; missing: the input it lacks, as the job file names it."""
    return Finding(area, subject, check, Verdict.NEEDS_INPUT, basis=basis, advice=f"give {missing}")


def by_urgency(findings: list[Finding]) -> list[Finding]:
    """The findings, worst first; the order within a verdict is kept."""
    return sorted(findings, key=lambda finding: URGENCY.index(finding.verdict))


def _judged(finding: Finding, tight: float) -> Finding:
    assert finding.margin is not None
    if finding.margin < -1e-9:
        return replace(finding, verdict=Verdict.FAILS)
    if finding.margin < tight - 1e-9:
        return replace(finding, verdict=Verdict.TIGHT)
    return replace(finding, advice="")
