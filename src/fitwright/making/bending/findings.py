"""What the bender, the die and the metal have to say about a bend sheet."""

from __future__ import annotations

import math

from fitwright.findings import Finding, Verdict, at_most, needs_input
from fitwright.making.bending.alternatives import dies_in_words
from fitwright.making.bending.case import AREA, Case
from fitwright.making.bending.metal import metal_findings
from fitwright.making.bending.model import BendSheet, BendStep
from fitwright.making.bending.springback import BASIS, Springback
from fitwright.making.bending.straights import straight_findings
from fitwright.making.bending.trial_findings import trial_findings
from fitwright.shop import Shop
from fitwright.shop.learning import Learnt
from fitwright.shop.model import groove_size
from fitwright.stock import Stock
from fitwright.units import Style


def bend_findings(
    sheet: BendSheet,
    stock: Stock,
    shop: Shop,
    style: Style | None = None,
    tight: float = 0.10,
    learnt: Learnt | None = None,
) -> tuple[Finding, ...]:
    """Every finding about bending one member; each bend's check is told for the worst bend.

    tight: the margin, as a fraction of the limit, below which a check that holds is called tight.
    learnt: from the shop's trials.
    """
    case = Case(sheet, stock, shop, style or Style.metric(), tight, learnt)
    found: list[Finding] = []
    for check in (_dies, straight_findings, metal_findings, _length, _overbend, trial_findings, _machine):
        found.extend(check(case))
    return tuple(found)


def _dies(case: Case) -> list[Finding]:
    missing = sorted({step.radius for step in case.sheet.steps if not step.die})
    if not missing:
        names = ", ".join(dict.fromkeys(step.die for step in case.sheet.steps))
        return [Finding(AREA, case.sheet.subject, "die", Verdict.HOLDS, basis="the shop's dies", formula=names)]
    return [_no_die(case, radius) for radius in missing]


def _no_die(case: Case, radius: float) -> Finding:
    what = case.stock.label
    if groove_size(case.stock.section) is None:
        said = f"no die or rolls take {what}: have it bent outside, or make it of straight parts"
    else:
        said = f"no {case.style.length(radius)} die for {what}: {dies_in_words(case.shop, case.stock, case.style)}"
    return Finding(
        AREA, case.sheet.subject, "die", Verdict.FAILS, value=radius, unit="mm", basis="the shop's dies", advice=said
    )


def _length(case: Case) -> list[Finding]:
    bars = case.shop.bars_for(case.stock)
    longest = max(bars, key=lambda bar: bar.length)
    trim = 2 * case.shop.saw_for(case.stock).end_trim
    usable, over = longest.length - trim, case.sheet.blank - (longest.length - trim)
    return [
        at_most(
            AREA,
            case.sheet.subject,
            "blank length against the longest bar",
            case.sheet.blank,
            usable,
            "mm",
            tight=0.0,
            basis=f"bar {longest.basis}",
            advice=f"{case.style.length(over)} too long for one bar: make it of two with a sleeved butt in a straight",
            formula=f"{case.style.length(case.sheet.blank)} from a bar of {case.style.length(longest.length)}",
        )
    ]


def _overbend(case: Case) -> list[Finding]:
    if all(step.command_radius != step.radius for step in case.sheet.steps):
        return []
    material = case.stock.material
    if material.fy is None:
        return [needs_input(AREA, case.sheet.subject, "overbend", f"the yield stress of {material.name}", basis=BASIS)]
    return [finding for step in _most_turned(case) for finding in _reach(case, step)]


def _most_turned(case: Case) -> list[BendStep]:
    drawn = [step for step in case.sheet.steps if step.die]
    return [max(drawn, key=lambda step: step.command_angle)] if drawn else []


def _reach(case: Case, step: BendStep) -> list[Finding]:
    die = case.die(step)
    if die is None or die.rolls:
        return []
    if step.springback is None:
        return [_elastic(case, step)]
    limit = math.degrees(die.max_angle)
    return [
        at_most(
            AREA,
            case.sheet.subject,
            "largest angle to bend to, springback included",
            math.degrees(step.command_angle),
            limit,
            "deg",
            tight=0.0,
            basis=f"{step.springback.basis}; the die's data in the shop file",
            advice=f"bend {step.number} in two passes, or take a die that turns further than {limit:.0f}°",
            formula=_overbend_formula(step, step.springback),
        )
    ]


def _elastic(case: Case, step: BendStep) -> Finding:
    advice = f"{case.stock.label} springs back straight from {case.style.length(step.radius)}: take a smaller radius"
    return Finding(AREA, case.sheet.subject, "overbend", Verdict.FAILS, basis=BASIS, advice=advice)


def _overbend_formula(step: BendStep, springback: Springback) -> str:
    kept, spread = springback.kept, math.degrees(springback.spread)
    return f"{math.degrees(step.angle):.1f}° / {kept:.4f} kept after release, ± {spread:.1f}° (one standard deviation)"


def _checked_against(case: Case) -> str:
    """What the bent part was tried against: no more is claimed than the shop file lets be checked."""
    die = case.die(case.sheet.steps[0])
    bender = case.shop.bender_for(die) if die else None
    parts = ["die", "tube still to be bent"]
    parts += ["floor"] if bender and bender.height is not None else []
    parts += [f"body of the {bender.name}"] if bender and bender.body is not None else []
    return "tried against: " + ", ".join(parts)


def _machine(case: Case) -> list[Finding]:
    hits = case.sheet.collisions
    if hits is None:
        return []
    check, basis = "room for the bent part at the machine", "the bender's data in the shop file"
    if not hits:
        return [Finding(AREA, case.sheet.subject, check, Verdict.HOLDS, basis=basis, formula=_checked_against(case))]
    return [
        Finding(
            AREA,
            case.sheet.subject,
            f"{check}, bend {hit.step}",
            Verdict.FAILS,
            basis=basis,
            advice=f"{hit.what}: make it of two parts joined by a sleeved butt, or bend this one by hand",
        )
        for hit in hits
    ]
