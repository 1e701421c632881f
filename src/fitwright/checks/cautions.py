"""Cautions for food, floor, children, public routes, outdoors and heat, where the brief asks for them.

The words that ask are in `asked`. Rules of law differ by place and edition: each caution names its clause and defers to
the authority there; what the drawing can answer is answered.
"""

from __future__ import annotations

from fitwright.checks.asked import asked
from fitwright.checks.standing import anchors, contacts
from fitwright.findings import Finding, Verdict, at_least, at_most
from fitwright.job.model import Job
from fitwright.piece.model import Piece
from fitwright.piece.path import Vector
from fitwright.units import INCH

AREA = "cautions"
CLEAR_UNDER = 6 * INCH
STORED_AT = 6 * INCH
PROTRUSION = 4 * INCH
CANE_LOW, CANE_HIGH = 27 * INCH, 80 * INCH
HARD_WOODS = ("sugar maple",)
LOCAL = "The local health authority decides"
OFFICIAL = "The local building official decides"


def caution_findings(job: Job, piece: Piece) -> list[Finding]:
    """One set of findings for each caution that the brief asks for; none without."""
    makers = {
        "food": _food,
        "food contact": _food_contact,
        "floor": _floor,
        "children": _children,
        "public route": _public_route,
        "outdoors": _outdoors,
        "wet": _outdoors,
        "heat": _heat,
    }
    wanted = asked(job)
    chosen = dict.fromkeys(maker for word, maker in makers.items() if word in wanted)
    found = [finding for maker in chosen for finding in maker(job, piece)]
    return list({(finding.subject, finding.check): finding for finding in found}.values())


def _food(job: Job, piece: Piece) -> list[Finding]:
    return [
        *_floor(job, piece),
        _lowest_shelf(job, piece),
        _ask(
            "gap to walls and neighbours", "FDA Food Code 4-402.11 as in WAC 246-215-04405",
            f"leave room to clean behind, or no more than 1/32 in (1 mm), or seal it. {LOCAL}",
        ),
        _ask(
            "surfaces and welds", "FDA Food Code 4-202.11 (from memory)",
            f"where food may touch: smooth, no open seams or pits, welds ground and dressed. {LOCAL}",
        ),
    ]  # fmt: skip


def _food_contact(job: Job, piece: Piece) -> list[Finding]:
    basis = "FDA Food Code 4-101.17 as in WAC 246-215-04130"
    woods = {p.stock.material.name for p in piece.panels if p.stock.material.is_timber}
    others = sorted(woods - set(HARD_WOODS))
    if not others:
        return [_ask("wood that touches food", basis, f"hard maple is accepted for boards and tables. {LOCAL}")]
    return [
        Finding(
            AREA, ", ".join(others), "wood that touches food", Verdict.FAILS, basis=basis,
            advice=f"use hard maple or as hard and close-grained a wood where food touches it, not "
            f"{', '.join(others)}. {LOCAL}",
            formula="wood is not accepted as a food-contact surface, except hard maple and its equals for cutting "
            "boards, "
            "blocks, bakers' tables and utensils",
        )
    ]  # fmt: skip


def _floor(job: Job, piece: Piece) -> list[Finding]:
    """Room to clean under; a piece on casters rolls away instead."""
    figure = job.style.figure
    basis = f"FDA Food Code 4-402.12, as California HSC 114169: 6 in of clearance under legs, or easily moved. {LOCAL}"
    items = [c.item for c in contacts(piece) if c.item is not None]
    lows = [float(m.body.box[0][2]) for m in piece.members if _is_low_part(m.body.box)]
    lows += [float(panel.low[2]) for panel in piece.panels]
    low = min(lows, default=float(piece.envelope.low[2]))
    if items and all(item.kind == "caster" for item in items):
        return [
            Finding(
                AREA, "floor", "room to clean under it", Verdict.HOLDS, low, basis=basis, unit="mm",
                formula=f"{figure(low, 0)} under it, and it rolls away on casters",
            )
        ]  # fmt: skip
    return [
        at_least(
            AREA, "floor", "room to clean under it", low, CLEAR_UNDER, "mm", tight=0.0, basis=basis,
            advice=f"raise the lowest rail by {job.style.length(CLEAR_UNDER - low)}, set it on casters, or seal it "
            f"to the floor",
            formula=f"lowest rail or board {figure(low, 0)} above the floor, legs left out",
        )
    ]  # fmt: skip


def _is_low_part(box: tuple[Vector, Vector]) -> bool:
    """Rails and ledges, not legs: wider than high."""
    size = box[1] - box[0]
    return bool(max(size[0], size[1]) > size[2])


def _lowest_shelf(job: Job, piece: Piece) -> Finding:
    basis = f"FDA Food Code 3-305.11 (number seen in secondary pages). {LOCAL}"
    level = [panel for panel in piece.panels if panel.normal == 2]
    if not level:
        return _ask("food stored 6 in above the floor", basis, f"keep food at least {job.style.length(STORED_AT)} up")
    low = min(float(panel.high[2]) for panel in level)
    return at_least(
        AREA, "lowest shelf", "food stored 6 in above the floor", low, STORED_AT, "mm", tight=0.0, basis=basis,
        advice=f"raise the lowest shelf by {job.style.length(STORED_AT - low)}",
        formula=f"top of the lowest shelf at {job.style.figure(low, 0)}",
    )  # fmt: skip


def _children(job: Job, piece: Piece) -> list[Finding]:
    return [
        _ask(
            "climbing and tipping by children", "16 CFR 1261 (ASTM F2057-23), 60 lb child",
            "the rule covers clothing storage units from 27 in and 30 lb; shelving and tables lie outside it, a "
            "child does not "
            "know: hold the top to the wall, no steps within reach, no finger gaps of 5 to 12 mm (3/16 to "
            "1/2 in; from memory)",
        )
    ]  # fmt: skip


def _public_route(job: Job, piece: Piece) -> list[Finding]:
    found = [
        _ask(
            "width left beside it", "ADA Standards 403.5, 404.2.3",
            f"leave {job.style.length(36 * INCH)} beside it (32 in at a door), and 60 x 60 in to pass every 200 ft. "
            f"{OFFICIAL}",
        )
    ]  # fmt: skip
    if anchors(piece):
        found.append(_protrusion(job, piece))
    return found


def _protrusion(job: Job, piece: Piece) -> Finding:
    """How far a wall-hung piece stands out between cane height and headroom."""
    figure = job.style.figure
    low, high = float(piece.envelope.low[2]), float(piece.envelope.high[2])
    basis = f"ADA Standards 307.2: 4 in at most between 27 and 80 in above the floor. {OFFICIAL}"
    depth = float(piece.envelope.size[1])
    if low <= CANE_LOW or low >= CANE_HIGH:
        return Finding(
            AREA, "piece", "standing out from the wall", Verdict.HOLDS, depth, basis=basis, unit="mm",
            formula=f"from {figure(low, 0)} to {figure(high, 0)} above the floor: a cane finds it, or it is "
            "over head height",
        )  # fmt: skip
    return at_most(
        AREA, "piece", "standing out from the wall", depth, PROTRUSION, "mm", tight=0.0, basis=basis,
        advice=f"bring its lower edge to {job.style.length(CANE_LOW)} or below, or its depth to "
        f"{job.style.length(PROTRUSION)}",
        formula=f"{figure(depth, 0)} deep, lower edge at {figure(low, 0)}",
    )  # fmt: skip


def _outdoors(job: Job, piece: Piece) -> list[Finding]:
    hollow = any(member.stock.section.bore() is not None for member in piece.members)
    drained = "drain holes of 6 mm (1/4 in) at the lowest point of every closed tube, end caps, " if hollow else ""
    rest = "primer on every face, stainless screws; timber off the floor and its end grain sealed"
    return [_ask("water and rust", "common practice", drained + rest)]


def _heat(job: Job, piece: Piece) -> list[Finding]:
    return [
        _ask(
            "distance from the source of heat", "the appliance's own instructions; NFPA 211 (36 in to combustibles, "
            "from memory)",
            f"keep timber and cloth {job.style.length(36 * INCH)} away unless the appliance says less. "
            "The local fire authority decides",
        )
    ]  # fmt: skip


def _ask(check: str, basis: str, advice: str) -> Finding:
    """What no drawing can answer: it is for the maker to clear up."""
    return Finding(AREA, "piece", check, Verdict.NEEDS_INPUT, basis=basis, advice=advice)
