"""What the seasons do to a panel, and the fixing that lets a solid top move."""

from __future__ import annotations

from fitwright.checks.asked import is_damp
from fitwright.checks.moisture import BASIS, DAMP_HUMID, DRY, HUMID, fixings_of, width_change
from fitwright.job.model import Job
from fitwright.making.timber.model import Fixing, Layout, Movement
from fitwright.piece.model import Panel, Piece

MIDDLE = 1 / 20  # of the width: a fixing this near to the middle may be tight


def movement_of(job: Job, panel: Panel, layout: Layout | None) -> Movement | None:
    """How a panel moves across its grain; None for metal, plywood, and species whose movement is not known."""
    coefficient = panel.stock.material.c_tangential
    if panel.stock.material.is_metal or coefficient is None or panel.kind == "sheet":
        return None
    dry, humid = DRY, DAMP_HUMID if is_damp(job) else HUMID
    boards = [board for board in panel.boards if board.role != "batten"]
    gapped = panel.kind == "slats" and len(boards) > 1
    width = max(b.width for b in boards) if panel.kind == "slats" else sum(b.width for b in boards)
    change = width_change(width, coefficient, humid - dry)
    apart = layout.apart if layout is not None else 0.0
    between = width_change(apart, coefficient, humid - dry) if apart else None
    gap = panel.gap if gapped else None
    least = panel.gap - change if gapped else None
    return Movement(dry, humid, change, gap, least, between, BASIS.format(dry, humid))


def fixings_in(job: Job, piece: Piece, panel: Panel) -> tuple[Fixing, ...]:
    """What holds a solid top down, each with the slot that it needs; none for a top that rests or has none named."""
    coefficient = panel.stock.material.c_tangential
    if panel.kind != "solid" or coefficient is None or panel.fastened == "rests":
        return ()
    points = (DAMP_HUMID if is_damp(job) else HUMID) - DRY
    along, across = panel.boards[0].along, panel.boards[0].across
    width = float(panel.high[across] - panel.low[across])
    found = []
    for item in (item for item in fixings_of(piece, panel) if item.placed):
        here = (float(item.at[along] - panel.low[along]), float(item.at[across] - panel.low[across]))
        arm = abs(here[1] - width / 2)
        moves = width_change(arm, coefficient, points)
        slot = 0.0 if arm <= width * MIDDLE else 2 * moves
        found.append(Fixing(item.name, item.label, *here, moves, slot))
    return tuple(found)
