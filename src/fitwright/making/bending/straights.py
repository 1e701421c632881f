"""Whether the straights of a member are long enough for its dies to hold."""

from __future__ import annotations

from fitwright.findings import Finding, Verdict, at_least
from fitwright.making.bending.alternatives import die_for_straight
from fitwright.making.bending.case import AREA, Case
from fitwright.making.bending.model import BendStep
from fitwright.shop import Die


def straight_findings(case: Case) -> list[Finding]:
    """Before the first bend, between bends, after the last one; nothing where there is no die, nor for a ring."""
    if case.sheet.ring:
        return []
    steps = case.sheet.steps
    first, last = case.die(steps[0]), case.die(steps[-1])
    found = []
    if first is not None:
        found.append(_end_straight(case, "straight before the first bend", steps[0].straight_before, first.lead, 0))
    found += _between(case)
    if last is not None:
        found.append(_end_straight(case, "straight after the last bend", case.sheet.last_straight, last.grip, 1))
    return found


def _end_straight(case: Case, check: str, straight: float, needed: float, which: int) -> Finding:
    """A short end is bent with tube left on and cut afterwards: possible, so tight and not failing."""
    short = needed - straight
    finding = at_least(
        AREA,
        case.sheet.subject,
        check,
        straight,
        needed,
        "mm",
        tight=0.0,
        basis="the die's data in the shop file",
        formula=f"{case.style.length(straight)} of straight, the die holds {case.style.length(needed)}",
    )
    if short <= 1e-9:
        return finding
    left = case.style.length(case.sheet.trims[which].allowance)
    advice = f"leave {left} on at the {case.sheet.trims[which].end} and cut it off after bending, " + (
        f"or lengthen the leg by {case.style.length(short)}" if not case.sheet.closed else "or move the butt"
    )
    return Finding(
        AREA,
        case.sheet.subject,
        check,
        Verdict.TIGHT,
        straight,
        needed,
        -short,
        "mm",
        finding.basis,
        advice,
        finding.formula,
    )


def _between(case: Case) -> list[Finding]:
    """One finding for each straight that is too short between two bends; else one for the shortest."""
    found = []
    for step in case.sheet.steps[1:]:
        die = case.die(step)
        if die is not None:
            found.append(_one_between(case, step, die))
    wrong = [finding for finding in found if finding.verdict is not Verdict.HOLDS]
    return wrong or sorted(found, key=lambda finding: finding.margin or 0.0)[:1]


def _one_between(case: Case, step: BendStep, die: Die) -> Finding:
    short = die.between - step.straight_before
    style = case.style
    pair = f"bends {step.number - 1} and {step.number}"
    advice = (
        f"{pair} need {style.length(die.between)} of straight between them and have "
        f"{style.length(step.straight_before)}: lengthen the leg by {style.length(short)}"
        + die_for_straight(case.sheet, step, case.stock, case.shop, style)
    )
    return at_least(
        AREA,
        case.sheet.subject,
        f"straight between {pair}",
        step.straight_before,
        die.between,
        "mm",
        tight=0.0,
        basis="the die's data in the shop file",
        advice=advice,
        formula=f"{style.length(step.straight_before)} of straight, the die needs {style.length(die.between)}",
    )
