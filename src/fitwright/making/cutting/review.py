"""Findings of cutting: the longest piece against the longest bar, the proof of the cost, and the waste."""

from __future__ import annotations

from collections.abc import Sequence

from fitwright.findings import Finding, Verdict, at_least, at_most
from fitwright.making.cutting.plan import CuttingPlan
from fitwright.making.cutting.request import Bar, Cut

AREA = "cutting"
SPARE = 5.0
"""mm of bar beyond the longest piece below which a bar sold a little short will not do; common practice."""

WASTE = 0.25
"""Part of the bars that may go to waste before another stock length is worth asking for; common practice."""


def longest_finding(subject: str, cuts: Sequence[Cut], bars: Sequence[Bar], end_trim: float) -> Finding:
    """Whether the longest bar, once squared, takes the longest piece [mm]. Holds for lists that are not empty."""
    longest = max((cut for cut in cuts if cut.quantity), key=lambda cut: cut.length_mm)
    bar = max((bar for bar in bars if bar.on_hand != 0), key=lambda bar: bar.length)
    return at_least(
        AREA,
        subject,
        f"longest bar takes {longest.mark or 'the longest piece'}",
        bar.length - end_trim,
        longest.length_mm,
        "mm",
        tight=SPARE,
        basis="common practice",
        advice=f"give a bar longer than {longest.length_mm + end_trim:.0f} mm, or splice {longest.mark or 'the piece'}",
        formula=f"{bar.length:.1f} - {end_trim:.1f} end trim >= {longest.length_mm:.1f}",
    )


def waste_finding(subject: str, plan: CuttingPlan) -> Finding:
    """How much of the bars does not end up in pieces, remnants included [%]; at worst tight, for it can be kept."""
    finding = at_most(
        AREA,
        subject,
        "waste",
        100 * plan.waste_fraction,
        100 * WASTE,
        "%",
        tight=0.0,
        basis="common practice",
        formula=f"1 - {sum(bar.used for bar in plan.bars):.0f} / {sum(bar.bar.length for bar in plan.bars):.0f} mm",
    )
    if finding.verdict is not Verdict.FAILS:
        return finding
    largest = max((bar.remnant for bar in plan.bars), default=0.0)
    advice = f"ask for other stock lengths; the largest remnant, {largest:.0f} mm, is worth keeping"
    return Finding(
        AREA, subject, "waste", Verdict.TIGHT, finding.value, finding.limit, finding.margin, "%",
        finding.basis, advice, finding.formula,
    )  # fmt: skip


def proof_finding(subject: str, plan: CuttingPlan) -> Finding:
    """Whether the plan is the cheapest there is, in the currency of the prices."""
    finding = at_most(
        AREA,
        subject,
        "cost against the least possible",
        float(plan.cost),
        float(plan.bound),
        "currency",
        tight=0.0,
        basis="bound from the relaxation over all cutting patterns",
        formula=f"{plan.cost} against at least {plan.bound}",
    )
    if plan.proven:
        return finding
    advice = "allow more time to look for a cheaper plan, or take this one"
    return Finding(
        AREA, subject, finding.check, Verdict.TIGHT, finding.value, finding.limit, finding.margin, "currency",
        finding.basis, advice, finding.formula,
    )  # fmt: skip
