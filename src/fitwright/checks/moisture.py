"""Wood moving across its grain with the seasons: gaps between slats, slots under a solid top."""

from __future__ import annotations

import numpy as np

from fitwright.checks.asked import is_damp
from fitwright.checks.rounding import up
from fitwright.findings import Finding, Verdict, at_least, needs_input
from fitwright.job.model import Job
from fitwright.piece.model import Board, Hardware, Panel, Piece

AREA = "timber"
DRY, HUMID = 6.0, 12.0  # % moisture, heated room in winter and unheated one in summer; the span of the default swing
DAMP_HUMID = 16.0  # %, under a roof outdoors; Wood Handbook chapter 13, from memory
BASIS = "Wood Handbook FPL-GTR-190 Table 13-5, flat-sawn (tangential) coefficient; moisture from {0:g} to {1:g} %"
OPEN_MM = 1.0  # of a gap that stays open; common practice
SLOT_WORDS = ("slot", "button", "figure-eight", "figure eight", "z clip", "z-clip", "expansion")
ON_PANEL = 2.0  # mm


def width_change(width: float, coefficient: float, points: float) -> float:
    """Change of a board's width [mm, or the unit of the width] over a number of moisture points [%].

    Holds from 6 to 14 % moisture. Source: Wood Handbook FPL-GTR-190, chapter 13, Table 13-5: D C (M2 - M1).

    >>> round(width_change(12.0, 0.00353, 6.0), 3)
    0.254
    """
    return width * coefficient * points


def moisture_findings(job: Job, piece: Piece) -> list[Finding]:
    """For each kind of timber panel: whether slats keep a gap when they swell, whether a solid top can move."""
    found: list[Finding] = []
    for part in dict.fromkeys(panel.part for panel in piece.panels):
        panel = next(panel for panel in piece.panels if panel.part == part)
        found += _panel(job, piece, panel)
    return found


def _panel(job: Job, piece: Piece, panel: Panel) -> list[Finding]:
    material = panel.stock.material
    if material.is_metal:
        return []
    if material.kind == "plywood":
        return [_still(panel)]
    if material.c_tangential is None:
        return [
            needs_input(AREA, panel.part, "movement across the grain", f"stock: the species of {panel.stock.label}")
        ]
    boards = [board for board in panel.boards if board.role != "batten"]
    if panel.kind == "slats":
        return [_gap(job, panel, boards, material.c_tangential)] if len(boards) > 1 else []
    return [_solid(job, piece, panel, boards, material.c_tangential)]


def _swing(job: Job) -> tuple[float, float]:
    return DRY, DAMP_HUMID if is_damp(job) else HUMID


def _still(panel: Panel) -> Finding:
    return Finding(
        AREA, panel.part, "movement across the grain", Verdict.HOLDS, basis="common practice",
        formula="plywood: its crossed layers keep it nearly still, about 0.1 mm a metre (1/64 in on 13 ft) "
        "for each % of moisture",
    )  # fmt: skip


def _gap(job: Job, panel: Panel, boards: list[Board], coefficient: float) -> Finding:
    figure = job.style.figure
    dry, humid = _swing(job)
    width = max(board.width for board in boards)
    swell = width_change(width, coefficient, humid - dry)
    left = panel.gap - swell
    return at_least(
        AREA, panel.part, "gap between slats when they have swollen", left, OPEN_MM, "mm",
        tight=job.brief.rules.tight * OPEN_MM, basis=BASIS.format(dry, humid),
        advice=f"a gap of at least {job.style.length(up(job.style, swell + OPEN_MM * (1 + job.brief.rules.tight)))} "
        "between slats, or narrower slats",
        formula=f"{figure(panel.gap, 1)} - {figure(width, 1)} x {coefficient} x ({humid:g} - {dry:g}) = "
        f"{figure(left, 1)}",
    )  # fmt: skip


def _solid(job: Job, piece: Piece, panel: Panel, boards: list[Board], coefficient: float) -> Finding:
    """A solid top: free when it only rests; otherwise its fixings need slots as long as their distance moves."""
    figure = job.style.figure
    dry, humid = _swing(job)
    axis = boards[0].across
    width = float(panel.high[axis] - panel.low[axis])
    whole = width_change(width, coefficient, humid - dry)
    formula = f"{figure(width, 0)} x {coefficient} x ({humid:g} - {dry:g}) = {figure(whole, 1)} over the whole width"
    fixings = fixings_of(piece, panel)
    basis = BASIS.format(dry, humid)
    if panel.fastened == "rests":
        return Finding(AREA, panel.part, "movement across the grain", Verdict.HOLDS, whole, unit="mm", basis=basis,
                       formula=f"{formula}; it rests and can move")  # fmt: skip
    if not fixings:
        asked = (
            f"a bolt, screw or fitting on {panel.name} that says how it is held (slotted brackets for "
            f"{figure(whole, 1)})"
        )
        return needs_input(AREA, panel.part, "movement across the grain", asked, basis=basis)
    middle = float(panel.low[axis] + panel.high[axis]) / 2
    arm = max(abs(float(item.at[axis]) - middle) for item in fixings)
    slot = width_change(arm, coefficient, humid - dry)
    formula += f"; the farthest fixing lies {figure(arm, 0)} from the middle and moves {figure(slot, 1)}"
    slotted = all(_is_slotted(item) for item in fixings if abs(float(item.at[axis]) - middle) > width / 20)
    advice = (
        f"hold it with slotted brackets or buttons: slots across the grain {job.style.length(up(job.style, 2 * slot))} "
        "longer than the screw is thick, screws in their middle; only the middle row tight"
    )
    verdict = Verdict.HOLDS if slotted else Verdict.FAILS
    return Finding(
        AREA, panel.part, "slots for movement across the grain", verdict, slot, None, None, "mm", basis,
        "" if slotted else advice,
        f"{formula}: slots {figure(2 * slot, 1)} longer than the screw is thick",
    )  # fmt: skip


def fixings_of(piece: Piece, panel: Panel) -> list[Hardware]:
    """The bought things that touch a panel."""
    return [
        item for item in piece.hardware if item.kind in ("screw", "bolt", "fitting", "anchor") and _touches(panel, item)
    ]


def _touches(panel: Panel, item: Hardware) -> bool:
    return bool(np.all(panel.low - ON_PANEL <= item.at) and np.all(item.at <= panel.high + ON_PANEL))


def _is_slotted(item: Hardware) -> bool:
    return any(word in item.label.lower() for word in SLOT_WORDS)
