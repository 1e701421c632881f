"""Everything computed, as plain JSON: an interface, with units in the names of its keys."""

from __future__ import annotations

from collections.abc import Sequence

from fitwright import __version__
from fitwright.assess import Assessment
from fitwright.findings import Finding
from fitwright.making.bending import bend_as_json
from fitwright.making.cutting import plan_as_json
from fitwright.piece.model import EndCut, Mark, Member, Panel, Piece
from fitwright.report.chances import chances
from fitwright.report.costs import costs
from fitwright.report.figures import Json, degrees, number, vector
from fitwright.report.loads import loads
from fitwright.report.making import bench, steps, templates
from fitwright.report.photos import photos
from fitwright.report.place import space
from fitwright.report.readings import readings_as_json
from fitwright.report.way_in import way_in
from fitwright.report.welds import welding, welds


def report(assessment: Assessment) -> Json:
    """The whole assessment; its schema is `report_schema()`."""
    return {
        "fitwright": __version__,
        "job": _job(assessment),
        "dims": _dims(assessment),
        "piece": _piece(assessment.piece),
        "members": [_member(assessment, mark) for mark in assessment.member_marks],
        "panels": _panels(assessment.piece),
        "hardware": [_hardware(assessment.piece, mark) for mark in assessment.piece.marks if mark.kind == "hardware"],
        "joints": _joints(assessment.piece),
        "cut_list": _cut_list(assessment),
        "cutting_plan": _cutting_plan(assessment),
        "buying_list": _buying(assessment),
        "bends": [{"mark": mark, **bend_as_json(sheet)} for mark, sheet in assessment.bend_sheets.items()],
        "templates": templates(assessment),
        "bench": bench(assessment),
        "steps": steps(assessment),
        "photo": photos(assessment),
        "space": space(assessment),
        "way_in": way_in(assessment),
        "loads": loads(assessment),
        "welds": welds(assessment),
        "welding": welding(assessment),
        "chances": chances(assessment),
        "readings": readings_as_json(assessment),
        "cost": costs(assessment),
        "findings": findings_as_json(assessment.all_findings),
    }


def findings_as_json(findings: Sequence[Finding]) -> list[Json]:
    """Findings in order of urgency; value, limit and margin in `unit`."""
    return [
        {
            "area": finding.area,
            "subject": finding.subject,
            "check": finding.check,
            "value": number(finding.value),
            "limit": number(finding.limit),
            "margin": number(finding.margin),
            "unit": finding.unit,
            "verdict": finding.verdict.value,
            "basis": finding.basis,
            "advice": finding.advice,
            "formula": finding.formula,
        }
        for finding in findings
    ]


def report_schema() -> Json:
    """JSON Schema of the report (draft 2020-12)."""
    import json
    from importlib.resources import files

    schema: Json = json.loads(files("fitwright").joinpath("report.schema.json").read_text(encoding="utf-8"))
    return schema


def _job(assessment: Assessment) -> Json:
    job = assessment.job
    return {
        "name": job.name,
        "client": job.client,
        "unit": job.style.unit,
        "due": job.due.isoformat() if job.due else None,
        "shop": assessment.shop.name,
        "currency": assessment.shop.currency,
    }


def _dims(assessment: Assessment) -> list[Json]:
    return [
        {
            "name": dim.name,
            "written": dim.text,
            "value_mm" if dim.is_length else "value": number(dim.value),
            "uses": list(dim.uses),
        }
        for dim in assessment.job.dims.values()
    ]


def _piece(piece: Piece) -> Json:
    box = piece.envelope
    return {
        "mass_kg": number(piece.mass),
        "centre_of_mass_mm": vector(piece.centre),
        "envelope_mm": {
            "low": vector(box.low),
            "high": vector(box.high),
            "size": vector(box.high - box.low),
            "with_casters_swept": {"low": vector(box.swept_low), "high": vector(box.swept_high)},
            "with_shelves_coming_out": {"low": vector(box.removal_low), "high": vector(box.removal_high)},
        },
    }


def _member(assessment: Assessment, mark: Mark) -> Json:
    member = assessment.made[mark.mark]
    return {
        "mark": mark.mark,
        "part": member.part,
        "quantity": mark.quantity,
        "names": list(mark.names),
        "mirror_of": mark.mirror_of,
        "stock": member.stock.label,
        "material": member.stock.material.name,
        "shape": member.stock.section.shape,
        "straight": not member.path.bent,
        "ring": member.ring,
        "cut_length_mm": number(member.cut_length),
        "mass_kg": number(member.mass),
        "centre_of_mass_mm": vector(member.centre),
        "ends": [_end(cut) for cut in member.ends],
        "sleeve": member.sleeve_of is not None,
        "placed": [_placed(other) for other in assessment.piece.members if other.name in mark.names],
    }


def _end(cut: EndCut) -> Json:
    return {
        "kind": cut.kind.value,
        "angle_deg": degrees(cut.angle),
        "tip_mm": number(cut.longest),
        "heel_mm": number(cut.shortest),
    }


def _placed(member: Member) -> Json:
    """Tip to tip along the path, so that a drawing or another program can find it."""
    return {
        "name": member.name,
        "start_mm": vector(member.path.start + member.ends[0].longest * member.body.outward(0)),
        "finish_mm": vector(member.path.end + member.ends[1].longest * member.body.outward(1)),
    }


def _panels(piece: Piece) -> list[Json]:
    return [_panel(piece, part, panels) for part, panels in piece.panels_by_part.items()]


def _panel(piece: Piece, part: str, panels: Sequence[Panel]) -> Json:
    first = panels[0]
    marks = [piece.mark_of[f"{first.name} {board.role} {k + 1}"] for k, board in enumerate(first.boards)]
    boards = dict(zip(marks, first.boards, strict=True))
    return {
        "mark": marks[0][: len(marks[0].rstrip("0123456789"))],
        "part": part,
        "quantity": len(panels),
        "kind": first.kind,
        "stock": first.stock.label,
        "size_mm": vector(first.high - first.low),
        "gap_mm": number(first.gap),
        "removable": first.removable is not None,
        "mass_kg": number(first.mass),
        "boards": [
            {
                "mark": mark,
                "role": board.role,
                "quantity": marks.count(mark),
                "stock": board.stock.label,
                "length_mm": number(board.length),
                "width_mm": number(board.width),
                "thickness_mm": number(board.thickness),
            }
            for mark, board in boards.items()
        ],
    }


def _hardware(piece: Piece, mark: Mark) -> Json:
    items = [item for item in piece.hardware if item.name in mark.names]
    first = items[0]
    return {
        "mark": mark.mark,
        "part": first.part,
        "kind": first.kind,
        "label": first.label,
        "quantity": sum(item.each for item in items),
        "mass_kg": number(first.mass),
        "price": None if first.price is None else str(first.price),
    }


def _joints(piece: Piece) -> list[Json]:
    return [
        {
            "kind": joint.kind.value,
            "between": [piece.members[joint.first].name, piece.members[joint.second].name],
            "marks": [piece.mark_of[piece.members[k].name] for k in (joint.first, joint.second)],
            "at_mm": vector(joint.point),
            "bolted": joint.bolted,
            "sleeve": None if joint.sleeve is None else piece.mark_of[piece.members[joint.sleeve].name],
        }
        for joint in piece.joints
    ]


def _cut_list(assessment: Assessment) -> list[Json]:
    return [
        {
            "stock": group.stock,
            "setting": setting,
            "cut_length_mm": number(group.setting_mm),
            "quantity": group.quantity,
            "marks": list(group.marks),
            "angle_start_deg": number(group.angle_start_deg),
            "angle_finish_deg": number(group.angle_end_deg),
        }
        for setting, group in enumerate(assessment.cut_groups, 1)
    ]


def _cutting_plan(assessment: Assessment) -> Json:
    plans = {label: plan_as_json(plan) for label, plan in assessment.cutting_plans.items()}
    costs = [plan.cost for plan in assessment.cutting_plans.values()]
    bounds = [plan.bound for plan in assessment.cutting_plans.values()]
    return {
        "cost": float(sum(costs)),
        "bound": float(sum(bounds)),
        "proven": all(plan.proven for plan in assessment.cutting_plans.values()),
        "currency": assessment.shop.currency,
        "bars": [{"stock": label, **bar} for label, plan in plans.items() for bar in plan["bars"]],
        "by_stock": [
            {"stock": label, **{k: v for k, v in plan.items() if k != "bars"}} for label, plan in plans.items()
        ],
    }


def _buying(assessment: Assessment) -> list[Json]:
    return [
        {
            "what": row.what,
            "size": row.size,
            "quantity": row.quantity,
            "price_each": None if row.price is None else str(row.price),
            "basis": row.basis,
        }
        for row in assessment.buying
    ]
