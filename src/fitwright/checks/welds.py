"""Sizes of the welds of a piece: a leg that is large enough for the thickness and does not burn through the wall."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass
from fractions import Fraction
from math import ceil

from fitwright.checks.fillets import (
    LARGEST_ON_THIN,
    THICKNESS_RATIO,
    Filler,
    filler_for,
    leg,
    line_capacity,
    throat_allowable,
)
from fitwright.findings import Finding, Verdict, at_most, needs_input
from fitwright.job.model import Job
from fitwright.piece.model import Joint, Member, Piece
from fitwright.units import INCH

AREA = "welds"
STITCH = 20.0  # mm, a run on thin wall; common practice
FINE_WIRE = 0.6  # mm; common practice
THIN_WALL = 1.4  # mm: thinner wall needs care whatever the leg; common practice
BASIS = (
    "least leg AISC 360-05 Table J2.4, thinner part; largest on thin wall one and a half times the wall, common "
    "practice; "
    "0.30 FEXX on the throat (AWS D1.1), 0.40 Fy in the wall (AISC ASD 1989 J4, from memory)"
)


@dataclass(frozen=True)
class Seam:
    """Welds that are alike: kind of joint, the two parts, their thicknesses [mm], and how many there are."""

    kind: str
    first: str
    second: str
    thin: float
    thick: float
    count: int
    sample: Joint


def weld_findings(job: Job, piece: Piece) -> list[Finding]:
    """The leg for each kind of welded joint, and a caution where the walls are thin or very unlike."""
    found: list[Finding] = []
    for seam in seams(piece):
        found += _seam(job, piece, seam)
    return found


def seams(piece: Piece) -> tuple[Seam, ...]:
    """The welded joints of metal members, gathered by kind, parts and thickness."""
    alike: dict[tuple[str, str, str, float, float], list[Joint]] = defaultdict(list)
    for joint in piece.joints:
        first, second = piece.members[joint.first], piece.members[joint.second]
        if is_welded(joint, first, second):
            a, b = sorted((thickness(first), thickness(second)))
            alike[(joint.kind.value, first.part, second.part, round(a, 3), round(b, 3))].append(joint)
    return tuple(Seam(*key, len(joints), joints[0]) for key, joints in alike.items())


def is_welded(joint: Joint, first: Member, second: Member) -> bool:
    """Whether a joint is a weld: metal to metal, and nothing said of bolts."""
    metal = first.stock.material.is_metal and second.stock.material.is_metal
    return metal and not joint.bolted and joint.kind.value != "bolted"


def thickness(member: Member) -> float:
    """The thickness that a weld on a member sees [mm]: wall, leg or plate thickness, half of a solid round."""
    sizes = member.stock.section.dimensions
    return float(sizes.get("wall", sizes.get("thickness", sizes.get("diameter", 0.0) / 2)))


def _seam(job: Job, piece: Piece, seam: Seam) -> list[Finding]:
    first, second = (piece.members[k] for k in (seam.sample.first, seam.sample.second))
    subject = f"{seam.first} to {seam.second}" if seam.first != seam.second else seam.first
    name = f"{subject} ({seam.count} {seam.kind}{'s' if seam.count > 1 and seam.kind != 'crossing' else ''})"
    kinds = {first.stock.material.kind, second.stock.material.kind}
    filler = filler_for(first.stock.material.kind)
    if len(kinds) > 1 and "aluminium" in kinds:
        return [_cannot(name, kinds)]
    if filler is None or any(m.stock.material.fy is None for m in (first, second)):
        return [needs_input(AREA, name, "leg of the weld", "stock: a grade whose strength is known", basis=BASIS)]
    if seam.kind == "butt":
        return [_butt(job, name, seam)]
    return [_leg(job, name, seam, filler, first, second), *_care(job, name, seam)]


def _leg(job: Job, name: str, seam: Seam, filler: Filler, first: Member, second: Member) -> Finding:
    figure = job.style.figure
    size = leg(seam.thin)
    walls = tuple((thickness(m), float(m.stock.material.fy or 0.0)) for m in (first, second))
    capacity = line_capacity(size.make, filler.strength, walls)
    return at_most(
        AREA, name, "leg of the weld", size.make, size.most, "mm", tight=0.0, basis=BASIS,
        advice=f"no leg over {job.style.length(size.most)} on this wall",
        formula=f"make {_size(job, size.make)}: at least {figure(size.least, 1)}, at most {figure(size.most, 1)} for "
        f"{figure(seam.thin, 2)} on {figure(seam.thick, 2)}; carries {job.style.line_load(capacity)}, the "
        f"least of 0.707 x {figure(size.make, 1)} x "
        f"{job.style.stress(throat_allowable(filler.strength))} ({filler.name}) and the walls' 0.40 Fy t",
    )  # fmt: skip


def _butt(job: Job, name: str, seam: Seam) -> Finding:
    figure = job.style.figure
    return Finding(
        AREA, name, "penetration of the butt", Verdict.HOLDS, seam.thin, None, None, "mm",
        "common practice: full penetration, the throat taken as the thinner wall",
        formula=f"throat {figure(seam.thin, 2)}, the wall itself; leave a root gap of about "
        f"{figure(seam.thin / 2, 1)} or a "
        f"sleeve",
    )  # fmt: skip


def _care(job: Job, name: str, seam: Seam) -> list[Finding]:
    figure = job.style.figure
    found = []
    if seam.thin < THIN_WALL:
        found.append(
            Finding(
                AREA, name, "burn-through", Verdict.TIGHT, seam.thin, THIN_WALL, seam.thin - THIN_WALL, "mm",
                "common practice",
                f"wall {figure(seam.thin, 1)}: stitch in runs of {job.style.length(STITCH)}, let it cool "
                f"between, {figure(FINE_WIRE)} wire or TIG; leg "
                f"never over "
                f"{figure(LARGEST_ON_THIN * seam.thin, 1)}",
                f"thinner wall {figure(seam.thin, 2)}, easy from {figure(THIN_WALL, 2)} on",
            )
        )  # fmt: skip
    if seam.thick > THICKNESS_RATIO * seam.thin:
        ratio = seam.thick / seam.thin
        found.append(
            Finding(
                AREA, name, "unlike thicknesses", Verdict.TIGHT, ratio, THICKNESS_RATIO, THICKNESS_RATIO - ratio, "",
                "common practice",
                f"hold the arc on the {figure(seam.thick, 1)} part and wash it onto the {figure(seam.thin, 1)} wall",
                f"{figure(seam.thick, 2)} / {figure(seam.thin, 2)} = {ratio:.1f}",
            )
        )  # fmt: skip
    return found


def _cannot(name: str, kinds: set[str]) -> Finding:
    return Finding(
        AREA, name, "metals that can be welded to one another", Verdict.FAILS, basis="common practice",
        advice="bolt them, with a washer or tape between against corrosion: joints: how: bolted",
        formula=" with ".join(sorted(kinds)),
    )  # fmt: skip


def _size(job: Job, mm: float) -> str:
    """A leg as a welder's gauge has it: the next 1/32 in or half millimetre, a tenth of one being nothing."""
    if job.style.unit == "inch":
        return f'{Fraction(ceil(mm / INCH * 32 - 0.1), 32)}"'
    return f"{job.style.figure(ceil(mm * 2 - 0.1) / 2, 1)}"
