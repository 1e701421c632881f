"""What the piece stands on: casters, feet, ends of members on the floor, or the lowest edge of its boards."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from fitwright.findings import Finding, Verdict, at_most, needs_input
from fitwright.job.model import Job
from fitwright.piece.model import EndCut, Hardware, Member, Panel, Piece
from fitwright.piece.path import Straight

Floats = NDArray[np.float64]

AREA = "stability"
FLOOR_MM = 1.0  # nearer to the floor than this is on it
WALL_MM = 3.0  # nearer to a wall than this is at it
ARC_POINTS = 9


@dataclass(frozen=True, eq=False)
class Contact:
    """Where the piece touches the floor: point (3,) [mm]; a swivel caster's wheel goes round it at `swing` [mm]."""

    name: str
    point: Floats
    swing: float = 0.0
    item: Hardware | None = None


def contacts(piece: Piece) -> tuple[Contact, ...]:
    """Casters and feet at their points, and whatever else of the piece lies on the floor; none when it hangs."""
    rolling = [_under(item) for item in piece.hardware if item.kind in ("caster", "foot")]
    lying = [c for m in piece.members if m.sleeve_of is None for c in _lying(m.name, _underside(m))]
    lying += [c for panel in piece.panels for c in _lying(panel.name, _corners(panel))]
    return tuple(rolling + lying)


def anchors(piece: Piece) -> tuple[Hardware, ...]:
    """What holds the piece to a wall or to the floor, where it is said where; what is only bought holds nothing."""
    return tuple(item for item in piece.hardware if item.kind == "anchor" and item.placed)


def floor_findings(job: Job, piece: Piece, on: tuple[Contact, ...]) -> list[Finding]:
    """Whether every caster and foot reaches the floor, and whether anything stands on it at all."""
    if not on and not anchors(piece):
        side = _wall_met(job, piece)
        if side is not None:
            missing = f"a part with an anchor (size, rated), at each place where the {side} wall holds it"
            return [needs_input(AREA, "piece", "pull and shear on what holds it to the wall", missing, basis="statics")]
        return [
            Finding(
                AREA, "piece", "stands on the floor", Verdict.FAILS, float(piece.envelope.low[2]), 0.0,
                -float(piece.envelope.low[2]), "mm", "statics",
                f"nothing reaches the floor: lower it by {job.style.length(float(piece.envelope.low[2]))}, give it "
                "feet or casters, or hold it to the wall with an anchor",
                f"lowest point {job.style.figure(piece.envelope.low[2], 1)} above the floor",
            )
        ]  # fmt: skip
    parts = {c.item.part for c in on if c.item is not None}
    return [_reach(job, part, [c for c in on if c.item is not None and c.item.part == part]) for part in sorted(parts)]


def _wall_met(job: Job, piece: Piece) -> str | None:
    """The wall that a member comes up to, of those that the job says the piece touches; None where none does."""
    outside = [outside_points(member) for member in piece.members]
    for side, value in job.space.walls.items():
        axis = 1 if side == "back" else 0
        if any(float(np.abs(points[:, axis] - value).min()) <= WALL_MM for points in outside):
            return side
    return None


def _reach(job: Job, part: str, on: list[Contact]) -> Finding:
    figure = job.style.figure
    worst = max(on, key=lambda contact: abs(float(contact.point[2])))
    off = float(worst.point[2])
    way = "down" if off > 0 else "up"
    return at_most(
        AREA, part, "reaches the floor", abs(off), FLOOR_MM, "mm", tight=0.0,
        basis="the piece as drawn: the floor is at height 0",
        advice=f"move {worst.name} {way} by {job.style.length(abs(off))}, or change its height by as much",
        formula=f"fixed at {figure(worst.point[2] + (worst.item.drop if worst.item else 0.0), 1)} "
        f"less its height {figure(worst.item.drop if worst.item else 0.0, 1)} = {figure(off, 1)} above the floor",
    )  # fmt: skip


def _under(item: Hardware) -> Contact:
    swivels = item.kind == "caster" and bool(item.properties.get("swivel", True))
    swing = float(item.properties.get("lead", 0.0)) if swivels else 0.0
    return Contact(item.name, item.at - np.array([0.0, 0.0, item.drop]), swing, item)


def _lying(name: str, points: Floats) -> list[Contact]:
    """The points that lie on the floor."""
    return [Contact(name, point) for point in points if abs(point[2]) <= FLOOR_MM]


def _underside(member: Member) -> Floats:
    """Points (k, 3) of a member's outside at the ends of its straights and in its bends [mm]; none if all is high."""
    return outside_points(member) if float(member.body.box[0][2]) <= FLOOR_MM else np.zeros((0, 3))


def outside_points(member: Member) -> Floats:
    """Points (k, 3) of a member's outside at the ends of its straights, cut as they are, and in its bends [mm]."""
    body, outline = member.body, member.stock.section.outline(24)
    segments = body.path.segments
    steps = [2 if isinstance(segment, Straight) else ARC_POINTS for segment in segments]
    rings = [body.place(k, np.linspace(0, 1, count), outline) for k, count in enumerate(steps)]
    if not body.path.closed:
        for end, at in ((0, 0), (1, -1)):
            rings[at][at] = _cut(rings[at][at], body.outward(end), member.ends[end])
    return np.vstack([ring.reshape(-1, 3) for ring in rings])


def _cut(ring: Floats, outward: Floats, cut: EndCut) -> Floats:
    """The outline (k, 3) at an end, moved along the member to the planes that it is cut at."""
    if not cut.planes:
        return ring
    stops = [((plane.point - ring) @ plane.normal) / float(outward @ plane.normal) for plane in cut.planes]
    return np.asarray(ring + np.min(stops, axis=0)[:, None] * outward)


def _corners(panel: Panel) -> Floats:
    """The lower corners of its boards (k, 3) [mm]."""
    return np.array(
        [(x, y, b.low[2]) for b in panel.boards for x in (b.low[0], b.high[0]) for y in (b.low[1], b.high[1])]
    )
