"""Boards under load: the span between what they rest on, stress, sag at once and with creep."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from fitwright.checks.asked import is_damp
from fitwright.checks.bearings import bearings, round_middle
from fitwright.checks.board_bending import Bent, bend
from fitwright.checks.rounding import down, up
from fitwright.checks.timber_strength import allowable_bending, creep_factor, lasting_sag
from fitwright.findings import Finding, Verdict, at_most, needs_input
from fitwright.job.model import Job
from fitwright.piece.model import Panel, Piece
from fitwright.units import GRAVITY

Floats = NDArray[np.float64]

AREA = "timber"
SAG_BASIS = (
    "Euler beam on the middles of its bearings, lasting load; creep by NDS 2018 3.5.2; limit span/N of brief: rules: "
    "sag, a "
    "comfort target (furniture has no code)"
)
OVERHANG = 1 / 3  # of the span next to it; common practice
FREE_EDGES = 1.25  # how much more the edges of a sheet on points bend than its middle would as a strip
SMALL_OVERHANG = 40.0  # mm: an end on which nothing stands


@dataclass(frozen=True, eq=False)
class Strip:
    """What bends as one: a slat, or a whole solid top or sheet, along `axis`; width and thickness [mm], load [N/mm]."""

    name: str
    axis: int
    at: float
    low: float
    high: float
    width: float
    thickness: float
    load: float


def shelf_findings(job: Job, piece: Piece) -> list[Finding]:
    """Stress, sag and overhang of the level panels, once for each kind of panel, of the copy that is worst off."""
    found: list[Finding] = []
    for part in dict.fromkeys(panel.part for panel in piece.panels):
        panels = [panel for panel in piece.panels if panel.part == part and panel.normal == 2]
        if panels:
            found += _part(job, piece, panels)
    return found


def _part(job: Job, piece: Piece, panels: list[Panel]) -> list[Finding]:
    first = panels[0]
    if first.part not in job.brief.loads.on:
        return [needs_input(AREA, first.part, "load on its boards", f"brief: loads: {first.part}", basis=SAG_BASIS)]
    sets = [_panel(job, piece, panel) for panel in _distinct(panels)]
    return max(sets, key=_urgency)


def _distinct(panels: list[Panel]) -> list[Panel]:
    """Panels that differ in more than their height: copies over one another carry alike when they rest alike."""
    seen = {(len(p.rests_on), *np.round([*p.low[:2], *p.high[:2]], 1).tolist()): p for p in reversed(panels)}
    return list(seen.values())


def _urgency(found: list[Finding]) -> tuple[int, float]:
    order = list(Verdict)
    return max(
        (-order.index(f.verdict), -(f.margin or 0.0) / f.limit if f.limit else 0.0) for f in found
    )  # fmt: skip


def _panel(job: Job, piece: Piece, panel: Panel) -> list[Finding]:
    strips = _strips(job, panel)
    rests = [bearings(piece, panel, s.axis, s.at, s.low, s.high) for s in strips]
    carried_by = [(strip, rest) for strip, rest in zip(strips, rests, strict=True) if len(rest) >= 2]
    if panel.kind == "sheet" and not carried_by:
        return _sheet_on_points(job, piece, panel, strips, rests)
    if (panel.kind in ("slats", "solid") and len(carried_by) < len(strips)) or not carried_by:
        return [_unsupported(job, panel, rests)]
    bent = _bent(panel, _unlike(carried_by))
    if panel.kind == "sheet":
        strip, shape = min(bent, key=lambda pair: pair[1].span)
    else:
        strip, shape = max(bent, key=lambda pair: pair[1].sag / pair[1].span)
    return _told(job, panel, strip, shape)


def _sheet_on_points(job: Job, piece: Piece, panel: Panel, strips: list[Strip], rests: list[Floats]) -> list[Finding]:
    """A sheet on ends of legs, a ring or a spider: bent as a whole both ways at once, between the outermost points.

    The sags of both ways add up, and the free edges bend more than the middle. On the safe side for a ring.
    Source: the square plate on its four corners, Timoshenko, Theory of Plates and Shells, art. 47 (from memory): sag
    0.025 q a^4 / D, of which two strips make 0.026; at the edges 0.153 q a^2, a strip 0.125.
    """
    points = round_middle(piece, panel)
    if not len(points):
        return [_unsupported(job, panel, rests)]
    outermost = [(s, np.array([points[:, s.axis].min(), points[:, s.axis].max()]) - s.low) for s in strips]
    bent = _bent(panel, outermost)
    strip, shape = max(bent, key=lambda pair: pair[1].moment / pair[0].width)
    both = replace(shape, moment=FREE_EDGES * shape.moment, sag=sum(other.sag for _, other in bent))
    return _told(job, panel, strip, both)


def _bent(panel: Panel, strips: list[tuple[Strip, Floats]]) -> list[tuple[Strip, Bent]]:
    return [(s, bend(s.high - s.low, middles, s.load, _stiffness(panel, s))) for s, middles in strips]


def _told(job: Job, panel: Panel, strip: Strip, shape: Bent) -> list[Finding]:
    return [*_stress(job, panel, strip, shape), _sag(job, panel, strip, shape), *_overhang(job, panel, shape)]


def _unlike(strips: list[tuple[Strip, Floats]]) -> list[tuple[Strip, Floats]]:
    """One of each kind of strip with the middles of its bearings from its start (k,) [mm]: most slats are alike."""
    kinds: dict[tuple[float, ...], tuple[Strip, Floats]] = {}
    for strip, rests in strips:
        middles = rests.mean(axis=1) - strip.low
        key = (strip.axis, *np.round([strip.high - strip.low, strip.width, strip.load, *middles], 3).tolist())
        kinds.setdefault(key, (strip, middles))
    return list(kinds.values())


def _strips(job: Job, panel: Panel) -> list[Strip]:
    """Slats one by one; a solid top as one board along its grain; a sheet along both its sides."""
    boards = [board for board in panel.boards if board.role != "batten"]
    total = job.brief.loads.on[panel.part] + panel.mass * GRAVITY
    if panel.kind == "slats":
        across = sum(board.width for board in boards)
        return [_strip(panel, b.along, b.low, b.high, total * b.width / across) for b in boards]
    low, high = np.min([b.low for b in boards], axis=0), np.max([b.high for b in boards], axis=0)
    axes = (0, 1) if panel.kind == "sheet" else (boards[0].along,)
    return [_strip(panel, axis, low, high, total) for axis in axes]


def _strip(panel: Panel, axis: int, low: Floats, high: Floats, force: float) -> Strip:
    size, across = high - low, 1 - axis
    middle = float(low[across] + high[across]) / 2
    return Strip(
        panel.name, axis, middle, float(low[axis]), float(high[axis]), float(size[across]), float(size[2]),
        force / float(size[axis]),
    )  # fmt: skip


def _stiffness(panel: Panel, strip: Strip) -> float:
    return panel.stock.material.e * strip.width * strip.thickness**3 / 12


def _unsupported(job: Job, panel: Panel, rests: list[Floats]) -> Finding:
    touched = min(len(rest) for rest in rests)
    return Finding(
        AREA, panel.part, "rests under its "
        "boards", Verdict.FAILS, float(touched), 2.0, touched - 2.0, "rests", "statics",
        f"{panel.name} needs two members that cross its boards "
        f"{'further apart' if touched else 'just under its face'}: "
        "add a ledge, or move one up to it",
        f"{touched} members touch the resting face under the worst board; two are needed",
    )  # fmt: skip


def _stress(job: Job, panel: Panel, strip: Strip, shape: Bent) -> list[Finding]:
    figure = job.style.figure
    material = panel.stock.material
    allowed = allowable_bending(material, job.style)
    if allowed is None:
        return [needs_input(AREA, panel.part, "bending stress", f"stock: a species or grade for {panel.stock.label}")]
    stress = 6 * shape.moment / (strip.width * strip.thickness**2)
    aim = allowed.stress * (1 - job.brief.rules.tight)
    return [
        at_most(
            AREA, panel.part, "bending stress of its boards", stress, allowed.stress, "MPa",
            tight=job.brief.rules.tight * allowed.stress, basis=allowed.basis,
            advice=f"boards {job.style.length(up(job.style, strip.thickness * (stress / aim) ** 0.5))} thick, or a "
            f"ledge "
            f"every {job.style.length(down(job.style, shape.span * (aim / stress) ** 0.5))}",
            formula=f"{job.style.moment(shape.moment)} x 6 / ({figure(strip.width)} x "
            f"{figure(strip.thickness)}²) = {job.style.stress(stress)} over "
            f"{figure(shape.span, 0)} at {job.style.line_load(strip.load)}; allowable {allowed.formula}",
        )
    ]  # fmt: skip


def _sag(job: Job, panel: Panel, strip: Strip, shape: Bent) -> Finding:
    figure = job.style.figure
    factor = creep_factor(panel.stock.material, is_damp(job))
    final, limit = lasting_sag(shape.sag, 0.0, factor), shape.span / job.brief.rules.sag
    aim = limit * (1 - job.brief.rules.tight)
    return at_most(
        AREA, panel.part, "sag of its boards in time", final, limit, "mm", tight=job.brief.rules.tight * limit,
        basis=SAG_BASIS,
        advice=f"boards {job.style.length(up(job.style, strip.thickness * (final / aim) ** (1 / 3)))} thick, or a "
        f"ledge "
        f"every {job.style.length(down(job.style, shape.span * (aim / final) ** (1 / 3)))} instead of "
        f"{job.style.length(shape.span)}",
        formula=f"{job.style.line_load(strip.load)} over {figure(shape.span, 0)}, with the stiffness E I of "
        "its boards: "
        f"{figure(shape.sag, 2)} "
        f"at once x {factor:g} for creep = {figure(final, 2)}; limit {figure(shape.span, 0)} / "
        f"{job.brief.rules.sag:g} = "
        f"{figure(limit, 2)}",
    )  # fmt: skip


def _overhang(job: Job, panel: Panel, shape: Bent) -> list[Finding]:
    figure = job.style.figure
    if shape.overhang <= SMALL_OVERHANG or panel.fastened != "rests":
        return []
    limit = OVERHANG * shape.span
    return [
        at_most(
            AREA, panel.part, "overhang of its "
            "boards", shape.overhang, limit, "mm", tight=job.brief.rules.tight * limit,
            basis="common practice: a third of the span beside it, so that a loose board does not flip up",
            advice=f"move the outer ledge {job.style.length(up(job.style, shape.overhang - limit))} outward, or "
            f"screw the "
            "boards down",
            formula=f"{figure(shape.overhang, 0)} beyond the last ledge; limit {figure(shape.span, 0)} / 3 "
            f"= {figure(limit, 0)}",
        )
    ]  # fmt: skip
