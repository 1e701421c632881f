"""What a whole job comes to in a few figures, for comparing ways of making it."""

from __future__ import annotations

from collections.abc import Sequence

from fitwright.assess import Assessment, assess
from fitwright.findings import Finding, Verdict
from fitwright.job import parse_job
from fitwright.pricing.exploring.trying import Figures
from fitwright.shop import Shop
from fitwright.shop.learning import Learnt

SAG, SWAY = "sag", "sway"
PHOTO = "photo"  # tells of the old piece, whatever way the new one is made


def judge(text: str, shop: Shop, learnt: Learnt | None = None) -> Figures:
    """A job file worked out whole in a shop. Raises what reading it and assessing it raise."""
    return figures_of(assess(parse_job(text), shop, learnt))


def figures_of(assessment: Assessment) -> Figures:
    """The figures of a job."""
    findings = [one for one in assessment.all_findings if one.area != PHOTO]
    cost, price, builds = assessment.cost, assessment.price, assessment.builds
    known = not cost.missing
    worst = findings[0] if findings else None
    return Figures(
        net=price.net if known else None,
        total=price.total if known else None,
        cost=cost.total,
        hours=cost.hours.mean,
        mass=assessment.piece.mass,
        sag=_most(findings, SAG),
        sway=_most(findings, SWAY),
        give=_give(findings),
        chance=None if builds is None else builds.overall,
        verdict=worst.verdict.value if worst else Verdict.HOLDS.value,
        finding="" if worst is None or worst.verdict is Verdict.HOLDS else _told(worst),
    )


def _told(finding: Finding) -> str:
    return f"{finding.area}, {finding.subject}: {finding.check}"


def _moving(findings: Sequence[Finding], *begins: str) -> list[Finding]:
    return [one for one in findings if one.check.startswith(begins) and one.unit == "mm" and one.value is not None]


def _most(findings: Sequence[Finding], begins: str) -> float | None:
    return max((one.value for one in _moving(findings, begins) if one.value is not None), default=None)


def _give(findings: Sequence[Finding]) -> float | None:
    """The worst sag or sway as a share of what is allowed; None where nothing moves or something tips first."""
    shares = [one.value / one.limit for one in _moving(findings, SAG, SWAY) if one.value is not None and one.limit]
    return max(shares, default=None)
