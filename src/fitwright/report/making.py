"""The making in the report: templates, set-ups on the bench with their blocks, steps and schedule."""

from __future__ import annotations

import numpy as np

from fitwright.assess import Assessment
from fitwright.making.bench import BenchPlan
from fitwright.making.coping import CopeSheet
from fitwright.making.plan import AskedReading, Scheduled
from fitwright.report.figures import Json, degrees, number

POINTS = 73  # of a template's lines, every 5 degrees round a tube


def templates(assessment: Assessment) -> list[Json]:
    """Every distinct template with its lines unrolled, and the ends that it serves."""
    return [_template(sheet) for sheet in assessment.cope_templates]


def _template(sheet: CopeSheet) -> Json:
    one = sheet.template
    x = np.linspace(0.0, one.girth, POINTS)
    return {
        "name": sheet.name,
        "stock": one.stock,
        "kind": one.kind.value,
        "girth_mm": number(one.girth),
        "gap_mm": number(one.gap),
        "bevel_deg": degrees(one.bevel),
        "around_mm": [number(v) for v in x.tolist()],
        "square_mm": [number(v) for v in one.at(x, one.square).tolist()],
        "bevelled_mm": [number(v) for v in one.at(x, one.bevelled).tolist()],
        "uses": [
            {
                "mark": use.template.mark,
                "end": use.template.end_word,
                "meets": list(use.template.meets),
                "quantity": use.quantity,
                "turned": use.turned,
                "base_line_mm": number(use.template.placement.distance),
                "measured_from": use.template.placement.measured.value,
            }
            for use in sheet.uses
        ],
    }


def bench(assessment: Assessment) -> Json:
    """The set-ups in order, and the blocks that all of them need."""
    return {
        "set_ups": [_set_up(plan) for plan in assessment.bench],
        "blocks": [
            {"stock": group.stock, "cut_length_mm": number(group.setting_mm), "marks": list(group.marks),
             "quantity": group.quantity}
            for group in assessment.blocks.groups
        ],
    }  # fmt: skip


def _set_up(plan: BenchPlan) -> Json:
    one = plan.subassembly
    return {
        "name": plan.name,
        "up": one.up_words,
        "takes": list(one.of),
        "same_as": one.same_as,
        "corner": plan.corner,
        "stops": [
            {"kind": s.kind, "hole": s.hole, "part": s.part, "touches": s.face, "gap_mm": number(s.gap),
             "block": s.block}
            for s in plan.stops
        ],
        "clamps": [{"kind": c.kind, "held_in": c.hole, "part": c.part} for c in plan.clamps],
        "checks": [
            {"what": c.name, "kind": c.kind, "length_mm": number(c.length), "tolerance_mm": number(c.tolerance),
             "basis": c.basis}
            for c in plan.checks
        ],
        "order": list(plan.steps),
        "made_blocks": plan.made,
        "fewest_blocks": plan.bound,
        "proven": plan.proven,
    }  # fmt: skip


def steps(assessment: Assessment) -> list[Json]:
    """Every step with its time in working days from the first."""
    return [_step(timed) for timed in assessment.schedule.steps]


def _step(timed: Scheduled) -> Json:
    step = timed.step
    return {
        "number": step.number,
        "step": step.key,
        "kind": step.kind,
        "title": step.title,
        "minutes": step.minutes,
        "people": step.hands,
        "day": timed.start.day + 1,
        "critical": timed.critical,
        "after": [{"step": one.number, "wait_minutes": one.wait, "why": one.why} for one in step.after],
        "asks": [_asked(one) for one in step.asks],
    }


def _asked(one: AskedReading) -> Json:
    told = degrees if one.angle else number
    unit = "deg" if one.angle else "mm"
    return {
        "of": one.of,
        "unit": unit,
        "asked": None if one.asked is None else told(one.asked),
        "tolerance": None if one.tolerance is None else told(one.tolerance),
    }
