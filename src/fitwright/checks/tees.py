"""The wall of a tube where another member is welded on: whether it gives way before the branch does."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from math import pi, sqrt

import numpy as np

from fitwright.checks.frame_results import FrameResults
from fitwright.checks.joint_forces import JointForce, span_along
from fitwright.findings import Finding, at_most
from fitwright.job.model import Job
from fitwright.mechanics.model import Floats
from fitwright.piece.model import CutKind, JointKind, Member, Piece
from fitwright.piece.path import Vector
from fitwright.piece.trim import nearest_axis, nearest_segment
from fitwright.piece.vectors import cross
from fitwright.stock import RectTube, RoundTube, Section

AREA = "strength"
ROUND_BASIS = "AISC 360-22, Tables K3.1 and K4.1, T joints of round tube, chord plastification, ASD"
PLATE_BASIS = "AISC 360-22, Table K2.1, plates on round tube, for a branch that is not round, ASD"
BOX_BASIS = (
    "EN 1993-1-8:2005, Tables 7.11 and 7.14 (moments from memory), T joints of rectangular tube, over the 1.5 of AISC"
)
SAFETY_ROUND, SAFETY_BOX = 1.67, 1.50
MATCHED = 0.85
TOUCH = 1.0  # mm


@dataclass(frozen=True)
class Bears:
    """What the wall bears from a branch square to it: force [N], moments in and out of the plane of both [N mm]."""

    axial: float
    in_plane: float
    out_of_plane: float
    basis: str

    def use(self, axial: Floats, in_plane: Floats, out_of_plane: Floats) -> Floats:
        """Share used (k,): P + Mi^2 + Mo for round, P + Mi + Mo for others."""
        bend = in_plane / self.in_plane
        bend = bend**2 if self.basis == ROUND_BASIS else bend
        return np.asarray(axial / self.axial + bend + out_of_plane / self.out_of_plane)

    def halved(self) -> Bears:
        """The same near an open end of the tube."""
        return Bears(self.axial / 2, self.in_plane / 2, self.out_of_plane / 2, self.basis)


@dataclass(frozen=True)
class Footprint:
    """A branch as the tube under it sees it [mm]: along the tube, across it, and the width of the face it is on."""

    along: float
    across: float
    face: float
    is_round: bool


def wall_bears(through: Section, foot: Footprint, fy: float) -> Bears | None:
    """What the through tube's wall bears from a branch square to it; None where it is no tube.

    fy: yield of the through tube [MPa]. The stress in the through tube itself is left out (Qf = 1).
    Holds for walls up to D/t 50 (round) or B/t 35, branches at right angles (slanting ones bear more) and a tube that
    runs on past the branch; see `near_open_end` for one that does not.
    Source: AISC 360-22, Tables K2.1, K3.1, K4.1 as seen in a transcription; rectangular EN 1993-1-8:2005.
    """
    if isinstance(through, RoundTube):
        return _round_on_round(through, foot, fy) if foot.is_round else _plate_on_round(through, foot, fy)
    return _on_box(through, foot, fy) if isinstance(through, RectTube) else None


def _round_on_round(through: RoundTube, foot: Footprint, fy: float) -> Bears:
    d, t, db = through.od, through.strength_wall, foot.across
    beta, gamma = min(db / d, 1.0), d / (2 * t)
    unit = fy * t**2 / SAFETY_ROUND
    return Bears(
        unit * (3.1 + 15.6 * beta**2) * gamma**0.2,
        5.39 * unit * sqrt(gamma) * beta * db,
        unit * db * 3.0 / (1 - 0.81 * beta),
        ROUND_BASIS,
    )


def _plate_on_round(through: RoundTube, foot: Footprint, fy: float) -> Bears:
    wide = min(foot.across, through.od)
    unit = 5.5 * fy * through.strength_wall**2 / SAFETY_ROUND
    across = unit / (1 - 0.81 * wide / through.od)
    along = unit * (1 + 0.25 * foot.along / through.od)
    return Bears(across, 0.8 * foot.along * along, 0.5 * wide * across, PLATE_BASIS)


def _on_box(through: RectTube, foot: Footprint, fy: float) -> Bears:
    """Between 0.85 of the face and all of it, in a straight line from one rule to the other; pi / 4 for a round branch.

    Source: EN 1993-1-8:2005, Table 7.11, its notes.
    """
    wall = through.wall if through.design_wall is None else through.design_wall
    beta = min(foot.across / foot.face, 1.0)
    shrink = pi / 4 if foot.is_round else 1.0
    bends = _face_bends(foot, wall, min(beta, MATCHED), fy) * shrink
    yields = _sides_yield(foot, wall, fy) * shrink
    part = max(0.0, (beta - MATCHED) / (1 - MATCHED))
    axial, inside, outside = (bends + part * (yields - bends)).tolist()
    return Bears(axial, inside, outside, BOX_BASIS)


def _face_bends(foot: Footprint, wall: float, beta: float, fy: float) -> Floats:
    """Force and two moments (3,) at which the face gives way between its edges."""
    h, b, eta, root = foot.along, foot.face, foot.along / foot.face, sqrt(1 - beta)
    axial = 2 * eta / (1 - beta) + 4 / root
    inside = h * (1 / (2 * eta) + 2 / root + eta / (1 - beta))
    outside = 0.5 * h * (1 + beta) / (1 - beta) + sqrt(2 * b * beta * b * (1 + beta) / (1 - beta))
    return fy * wall**2 / SAFETY_BOX * np.array([axial, inside, outside])


def _sides_yield(foot: Footprint, wall: float, fy: float) -> Floats:
    """Force and two moments (3,) at which the side walls under a full-width branch yield."""
    reach = foot.along + 5 * wall
    return fy * wall / SAFETY_BOX * np.array([2 * reach, 0.5 * reach**2, (foot.face - wall) * reach])


def near_open_end(piece: Piece, passed: JointForce, foot: Footprint) -> bool:
    """Whether the tube ends open so near the branch that its wall bears half as much.

    From the near side of the branch to the end: less than D (1.25 - b/2) for round tube, B sqrt(1 - b) for rectangular,
    b the width of the branch over that of the tube. An end that is itself welded to something is no open one.
    Source: AISC 360-22, K2 and K3, end distance of HSS connections (from memory).
    """
    through, beta = piece.members[passed.joint.second], min(foot.across / foot.face, 1.0)
    room = foot.face * (1.25 - beta / 2) if through.stock.section.is_round else foot.face * sqrt(1 - beta)
    return any(
        left - foot.along / 2 < room - TOUCH and not _is_welded(piece, through, end)
        for end, left in _ends_ahead(through, passed.joint.point)
    )


def _ends_ahead(member: Member, point: Vector) -> Iterator[tuple[int, float]]:
    """The ends to which a member runs straight from a point (3,), and how far each is [mm]."""
    if member.path.closed:
        return
    here = nearest_segment(member.body, point)
    for end, segment in ((0, member.path.segments[0]), (1, member.path.segments[-1])):
        if here is segment:
            drawn = float(abs((member.body.point_at(end) - point) @ member.body.outward(end)))
            yield end, drawn + member.ends[end].longest


def _is_welded(piece: Piece, member: Member, end: int) -> bool:
    joined = any(joint.first == member.index and joint.end == end and not joint.bolted for joint in piece.joints)
    return joined or member.ends[end].kind is CutKind.MITRE or bool(member.ends[end].copes)


def tee_findings(job: Job, results: FrameResults) -> list[Finding]:
    """One finding for each pair of parts that tee on tube: the worst joint in the worst case."""
    worst: dict[tuple[str, str], tuple[float, Finding]] = {}
    for passed in results.passed:
        judged = _judge(job, results, passed)
        if judged is not None and judged[1] > worst.get(judged[0], (-1.0, judged[2]))[0]:
            worst[judged[0]] = judged[1], judged[2]
    return [finding for _, finding in worst.values()]


def _judge(job: Job, results: FrameResults, passed: JointForce) -> tuple[tuple[str, str], float, Finding] | None:
    style = job.style
    piece, joint = results.framed.piece, passed.joint
    branch, through = piece.members[joint.first], piece.members[joint.second]
    stocks = results.framed.stocks
    fy = stocks[joint.second].material.fy
    if fy is None or not _is_tee(passed, branch.ends[joint.end or 0].kind):
        return None
    foot = _footprint(results, passed)
    bears = wall_bears(stocks[joint.second].section, foot, fy)
    if bears is None:
        return None
    ends_soon = near_open_end(piece, passed, foot)
    bears = bears.halved() if ends_soon else bears
    axial, inside, outside = _parts(results, passed)
    use = bears.use(axial, inside, outside) * results.cases.counts
    case = int(np.nanargmax(use))
    value = float(use[case])
    finding = at_most(
        AREA, f"{branch.part} on {through.part}", "wall of the tube at the tee", value, 1.0, "of what it bears",
        tight=job.brief.rules.tight, basis=bears.basis,
        formula=f"{branch.name} on {through.name}, {results.cases.cases[case].name}: {style.force(axial[case])} of "
        f"{style.force(bears.axial)}, {style.moment(inside[case])} of {style.moment(bears.in_plane)} in the "
        "plane of both, "
        f"{style.moment(outside[case])} of {style.moment(bears.out_of_plane)} out of it"
        + ("; halved, for the tube's open end is near: a cap welded on it doubles it" if ends_soon else ""),
    )  # fmt: skip
    return (branch.part, through.part), value, finding


def _is_tee(passed: JointForce, cut: CutKind) -> bool:
    kind = passed.joint.kind
    return passed.joint.end is not None and kind in (JointKind.TEE, JointKind.CORNER) and cut is not CutKind.MITRE


def _footprint(results: FrameResults, passed: JointForce) -> Footprint:
    """The branch's outline along and across the tube, and how wide the tube is across the branch."""
    members, stocks = results.framed.piece.members, results.framed.stocks
    branch, through = members[passed.joint.first], members[passed.joint.second]
    run = nearest_axis(through.body, passed.joint.point)[1]
    across = cross(run, passed.axis)
    across /= max(float(np.linalg.norm(across)), 1e-9)
    section, point = stocks[branch.index].section, passed.joint.point
    return Footprint(
        span_along(branch, section, point, run),
        span_along(branch, section, point, across),
        span_along(through, stocks[through.index].section, point, across),
        section.is_round,
    )


def _parts(results: FrameResults, passed: JointForce) -> tuple[Floats, Floats, Floats]:
    """Sizes (k,) of the axial force, and of the moments in and out of the plane of both members."""
    through = results.framed.piece.members[passed.joint.second]
    run = nearest_axis(through.body, passed.joint.point)[1]
    across = cross(run, passed.axis)
    across /= max(float(np.linalg.norm(across)), 1e-9)
    moment = results.magnified * passed.moment
    return np.abs(passed.axis @ passed.force), np.abs(across @ moment), np.abs(run @ moment)
