"""Where the boards of a panel rest: the members that they cross, seen from above."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from fitwright.checks.footprint import hull
from fitwright.piece.model import Member, Panel, Piece
from fitwright.piece.path import Straight

Floats = NDArray[np.float64]

LEVEL = 0.02  # rise over run of a member that a level board can lie on
TOUCH = 1.5  # mm between a board and what it rests on
SAME = 1.0  # mm: bearings nearer than this are one


def bearings(piece: Piece, panel: Panel, along: int, at: float, low: float, high: float) -> Floats:
    """Bearings (k, 2) [mm] from and to along axis `along`, of a board from `low` to `high` with its middle `at`.

    Only where the panel's resting face touches a member of `rests_on`; bearings are cut off at the board's ends.
    """
    face = float(panel.low[2]) if panel.grows > 0 else float(panel.high[2])
    boards = [board for board in panel.boards if board.role != "batten"]
    if panel.grows > 0:
        face = min(float(board.low[2]) for board in boards)
    found = [run for k in panel.rests_on for run in _crossings(piece.members[k], along, at, face)]
    cut = [(max(a, low), min(b, high)) for a, b in found]
    return _merged([(a, b) for a, b in cut if b > a])


def _crossings(member: Member, along: int, at: float, face: float) -> list[tuple[float, float]]:
    """Where the line at `at` across crosses the straights of a member whose top is at the face."""
    found = []
    for k, segment in enumerate(member.path.segments):
        if not isinstance(segment, Straight) or abs(segment.direction[2]) > LEVEL:
            continue
        ends = member.body.place(k, np.array([0.0, 1.0]), member.stock.section.outline(24))
        top = float(ends[..., 2].max())
        if abs(top - face) <= TOUCH:
            found += _crossing(hull(ends.reshape(-1, 3)[:, :2]), along, at)
    return found


def _crossing(polygon: Floats, along: int, at: float) -> list[tuple[float, float]]:
    """From and to along an axis where a line across a convex polygon (k, 2) lies in it; empty when it misses."""
    across = 1 - along
    following = np.roll(polygon, -1, axis=0)
    cuts = []
    for p, q in zip(polygon, following, strict=True):
        a, b = float(p[across]) - at, float(q[across]) - at
        if a * b <= 0 and a != b:
            cuts.append(float(p[along] + (q[along] - p[along]) * a / (a - b)))
    return [(min(cuts), max(cuts))] if cuts else []


def _merged(runs: list[tuple[float, float]]) -> Floats:
    merged: list[list[float]] = []
    for low, high in sorted(runs):
        if merged and low <= merged[-1][1] + SAME:
            merged[-1][1] = max(merged[-1][1], high)
        else:
            merged.append([low, high])
    return np.array(merged).reshape(-1, 2)
