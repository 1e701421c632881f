"""Findings of cutting: the longest piece against the longest bar, the proof of the cost, and the waste."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

from fitwright.findings import Finding, Verdict, at_least, at_most
from fitwright.making.cutting.cut_list import SawnPiece
from fitwright.making.cutting.plan import CuttingPlan
from fitwright.making.cutting.request import Bar, Cut
from fitwright.units import Style

AREA = "cutting"
SQUARE = 0.05
"""Degrees off square, or off the last degree it turns to, that no saw is set to."""
SPARE = 5.0
"""mm of bar beyond the longest piece below which a bar sold a little short will not do; common practice."""

WASTE = 0.25
"""Part of the bars that may go to waste before another stock length is worth asking for; common practice."""

KEPT = 300.0
"""mm from which a remnant goes back on the rack and is no waste; common practice."""


def longest_finding(
    subject: str, cuts: Sequence[Cut], bars: Sequence[Bar], end_trim: float, style: Style | None = None
) -> Finding:
    """Whether the longest bar, once squared, takes the longest piece [mm]. Holds for lists that are not empty."""
    said = style or Style.metric()
    longest = max((cut for cut in cuts if cut.quantity), key=lambda cut: cut.length_mm)
    bar = max((bar for bar in bars if bar.on_hand != 0), key=lambda bar: bar.length)
    mark = longest.mark or "the longest piece"
    return at_least(
        AREA,
        subject,
        f"longest bar takes {mark}",
        bar.length - end_trim,
        longest.length_mm,
        "mm",
        tight=SPARE,
        basis="common practice",
        advice=f"give a bar longer than {said.length(longest.length_mm + end_trim)}, or splice {mark}",
        formula=f"{said.length(bar.length)} less {said.length(end_trim)}, {said.length(longest.length_mm)} needed",
    )


def turn_finding(subject: str, pieces: Sequence[SawnPiece], turns_to: float) -> list[Finding]:
    """Whether the saw turns far enough for the steepest mitre of a stock [deg]; nothing to say where all is square."""
    steepest = max((max(abs(p.angle_start_deg), abs(p.angle_end_deg)) for p in pieces), default=0.0)
    if steepest < SQUARE:
        return []
    if turns_to < steepest < turns_to + SQUARE:
        steepest = turns_to
    marks = ", ".join(p.mark for p in pieces if max(abs(p.angle_start_deg), abs(p.angle_end_deg)) >= turns_to + SQUARE)
    wedge = max(math.ceil(round(steepest - turns_to, 3)), 1)
    return [
        at_most(
            AREA, subject, "steepest mitre against the saw", steepest, turns_to, "deg", tight=0.0,
            basis="the shop's saw: how far it turns from square",
            advice=f"clamp {marks} against a wedge that takes up {wedge}° and more, or cut to a line with a grinder",
            formula=f"{steepest:.1f}° off square, the saw turns to {turns_to:.0f}°",
        )
    ]  # fmt: skip


def waste_finding(subject: str, plan: CuttingPlan, style: Style | None = None) -> Finding:
    """How much of the bars is lost [%]: neither piece nor a remnant long enough to keep; at worst tight."""
    said = style or Style.metric()
    total = sum(bar.bar.length for bar in plan.bars)
    used = sum(bar.used for bar in plan.bars)
    kept = sum(bar.remnant for bar in plan.bars if bar.remnant >= KEPT)
    lost = (total - used - kept) / total if total else 0.0
    finding = at_most(
        AREA,
        subject,
        "waste",
        100 * lost,
        100 * WASTE,
        "%",
        tight=0.0,
        basis=f"common practice; remnants from {said.length(KEPT)} are kept",
        formula=f"(bars {said.length(total)} - pieces {said.length(used)} - kept {said.length(kept)}) / bars",
    )
    if finding.verdict is not Verdict.FAILS:
        return finding
    advice = "ask for other stock lengths, or make something small from the drops"
    return replace(finding, verdict=Verdict.TIGHT, advice=advice)


def proof_finding(subject: str, plan: CuttingPlan, currency: str = "currency") -> Finding:
    """Whether the plan is the cheapest there is, in the currency of the prices."""
    finding = at_most(
        AREA,
        subject,
        "cost against the least possible",
        float(plan.cost),
        float(plan.bound),
        currency,
        tight=0.0,
        basis="bound from the relaxation over all cutting patterns",
        formula=f"{plan.cost} against at least {plan.bound}",
    )
    if plan.proven:
        return finding
    advice = "allow more time to look for a cheaper plan, or take this one"
    return replace(finding, verdict=Verdict.TIGHT, advice=advice)
