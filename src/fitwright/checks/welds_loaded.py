"""Stress in the welds under the load cases: each weld as a line, against what filler and walls allow."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import replace
from functools import cache
from math import asin

import numpy as np

from fitwright.checks.fillets import THROAT, Filler, filler_for, leg, line_capacity
from fitwright.checks.frame_results import FrameResults
from fitwright.checks.joint_forces import JointForce, span_along
from fitwright.checks.weld_line import WeldLine, around, weld_line, weld_stress
from fitwright.checks.welds import is_welded, thickness
from fitwright.findings import Finding, at_most
from fitwright.job.model import Job
from fitwright.mechanics.model import Floats
from fitwright.piece.model import JointKind, Member
from fitwright.piece.trim import nearest_axis
from fitwright.piece.vectors import cross, size, unit
from fitwright.stock import Section

AREA = "welds"
BASIS = (
    "weld as a line, Blodgett, Design of Welded Structures, section 7.4; allowable 0.30 FEXX on the throat, Shigley, "
    "Table 9-6 (AWS D1.1), and 0.40 Fy in the wall beside it, AISC ASD 1989 J4 (from memory)"
)
BESIDE = (JointKind.LAP, JointKind.CROSSING)
ROUND_PATCH = 0.5
"""Share of a round member's width over which a weld beside it can be laid (common practice)."""
SQUARE_WITHIN = 1e-3
SIDE_BY_SIDE = 0.1


def weld_load_findings(job: Job, results: FrameResults) -> list[Finding]:
    """One finding for each kind of welded joint between two parts: the worst of its welds in the worst case."""
    members = results.framed.piece.members
    alike: dict[tuple[str, str, str], list[JointForce]] = defaultdict(list)
    for passed in results.passed:
        first, second = members[passed.joint.first], members[passed.joint.second]
        if is_welded(passed.joint, first, second) and passed.joint.kind is not JointKind.BUTT:
            alike[(passed.joint.kind.value, first.part, second.part)].append(passed)
    found = [_finding(job, results, kind, first, second, group) for (kind, first, second), group in alike.items()]
    return [finding for finding in found if finding is not None]


def _finding(
    job: Job, results: FrameResults, kind: str, first: str, second: str, group: list[JointForce]
) -> Finding | None:
    style = job.style
    stresses = [_stress(results, passed) for passed in group]
    worst = int(np.argmax([np.nanmax(stress) for stress in stresses]))
    passed, case = group[worst], int(np.nanargmax(stresses[worst]))
    a, b = (results.framed.piece.members[k] for k in (passed.joint.first, passed.joint.second))
    filler = filler_for(a.stock.material.kind)
    if filler is None or a.stock.material.fy is None or b.stock.material.fy is None:
        return None
    value, size = float(stresses[worst][case]), _leg(results, passed)
    limit = _allowed(results, passed, filler, size)
    many = f"{len(group)} {kind}{'s' if len(group) > 1 and kind != 'crossing' else ''}"
    subject = f"{first} to {second} ({many})" if first != second else f"{first} ({many})"
    return at_most(
        AREA, subject, "throat stress", value, limit, "MPa", tight=job.brief.rules.tight * limit, basis=BASIS,
        formula=f"{a.name} to {b.name}, {results.cases.cases[case].name}: leg {style.figure(size, 1)} all round, "
        f"{style.figure(_length(results, passed), 0)} of weld; {style.stress(value)} on the throat, limit "
        f"{style.stress(limit)} "
        f"({filler.name})",
    )  # fmt: skip


def _leg(results: FrameResults, passed: JointForce) -> float:
    return leg(min(_walls(results, passed))[0]).make


def _walls(results: FrameResults, passed: JointForce) -> tuple[tuple[float, float], tuple[float, float]]:
    """Thickness [mm] and yield [MPa] of both parts, with the stock that the frame has now."""
    first, second = (_part(results, k) for k in (passed.joint.first, passed.joint.second))
    return (thickness(first), first.stock.material.fy or 0.0), (thickness(second), second.stock.material.fy or 0.0)


def _part(results: FrameResults, index: int) -> Member:
    return replace(results.framed.piece.members[index], stock=results.framed.stocks[index])


def _allowed(results: FrameResults, passed: JointForce, filler: Filler, size: float) -> float:
    return line_capacity(size, filler.strength, _walls(results, passed)) / (THROAT * size)


def _length(results: FrameResults, passed: JointForce) -> float:
    return _line(results, passed)[0].length


def _stress(results: FrameResults, passed: JointForce) -> Floats:
    """(k,) throat stress of a joint's weld in each case [MPa], bending magnified, as it counts."""
    line, axes, at = _line(results, passed)
    forces = np.vstack([axes @ passed.force, results.magnified * (axes @ passed.moment)]).T
    return np.asarray(weld_stress(forces, line, _leg(results, passed), at) * results.cases.counts)


def _line(results: FrameResults, passed: JointForce) -> tuple[WeldLine, Floats, Floats]:
    """The weld, its axes u, v, w (3, 3) as rows in global directions, and where the force acts in it (2,) [mm]."""
    member = _part(results, passed.joint.first)
    if passed.joint.kind in BESIDE or passed.joint.end is None:
        return _patch(results, passed)
    frame = member.body.frame_at(passed.joint.end)
    normal = _face(member, passed)
    slope = asin(min(1.0, abs(float(normal @ passed.axis))))
    if slope > np.pi / 2 - SQUARE_WITHIN:
        return _square(member.stock.section), _axes(frame[0], frame[1]), np.asarray(member.stock.section.centroid)
    return _mitred(member.stock.section, frame, normal, passed.axis, slope)


@cache
def _square(section: Section) -> WeldLine:
    return around(section)


def _face(member: Member, passed: JointForce) -> Floats:
    """The normal (3,) of the plane in which an end is welded: that of its cut, square for a cope."""
    end = member.ends[passed.joint.end or 0]
    return end.planes[0].normal if len(end.planes) == 1 and not end.copes else passed.axis


def _mitred(
    section: Section, frame: Floats, normal: Floats, axis: Floats, slope: float
) -> tuple[WeldLine, Floats, Floats]:
    """An oblique cut: the section's outline drawn out along the lean of the member over its face."""
    common = cross(normal, axis)
    common /= np.linalg.norm(common)
    lean = cross(common, axis)
    drawn = cross(common, normal) * np.sign(float(cross(common, normal) @ lean))
    toward = frame @ lean
    turned = np.array([(side @ lean) * drawn + (side @ common) * common for side in frame])
    stretch = np.eye(2) + (1 / np.sin(slope) - 1) * np.outer(toward, toward)
    line = around(section, slope, float(np.arctan2(toward[1], toward[0])))
    return line, _axes(turned[0], turned[1]), np.asarray(section.centroid @ stretch)


def _axes(u: Floats, v: Floats) -> Floats:
    return np.array([u, v, cross(u, v)])


def _patch(results: FrameResults, passed: JointForce) -> tuple[WeldLine, Floats, Floats]:
    """A member laid on another: a weld round the patch on which they touch, as wide as each (half of it where round).

    A lap alongside counts as long as it is wide."""
    first, second = (_part(results, k) for k in (passed.joint.first, passed.joint.second))
    u = passed.axis
    w = _between(passed, second)
    b = _patch_width(first, passed, cross(w, u))
    a = max(_patch_width(second, passed, u), b)
    corners = np.array([[-a, -b], [a, -b], [a, b], [-a, b]]) / 2
    return weld_line(corners), np.array([u, cross(w, u), w]), np.zeros(2)


def _between(passed: JointForce, second: Member) -> Floats:
    """The direction (3,) square to both members, or from one to the other where they run side by side."""
    u = passed.axis
    across = cross(u, nearest_axis(second.body, passed.joint.point)[1])
    if size(across) > SIDE_BY_SIDE:
        return unit(across)
    gap = passed.joint.point - passed.point
    gap = gap - (gap @ u) * u
    return unit(gap) if size(gap) > SQUARE_WITHIN else unit(cross(u, np.eye(3)[int(np.argmin(np.abs(u)))]))


def _patch_width(member: Member, passed: JointForce, direction: Floats) -> float:
    section = member.stock.section
    share = ROUND_PATCH if section.is_round else 1.0
    return share * span_along(member, section, passed.joint.point, direction)
