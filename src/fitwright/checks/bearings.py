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
STATIONS = 25  # along a run, at which it is looked at
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


def round_middle(piece: Piece, panel: Panel) -> Floats:
    """Points (k, 2) [mm] at which members come up to a level panel, by a level run or by an end, and carry its middle.

    None where they do not stand round the middle: the panel would tip off them.
    """
    face = float(panel.low[2]) if panel.grows > 0 else float(panel.high[2])
    points = np.vstack([_met(piece.members[k], face) for k in panel.rests_on] or [np.zeros((0, 2))])
    inside = ((points > panel.low[:2] - TOUCH) & (points < panel.high[:2] + TOUCH)).all(axis=1)
    corners = hull(points[inside]).reshape(-1, 2)
    middle = (panel.low[:2] + panel.high[:2]) / 2
    edges, away = np.roll(corners, -1, axis=0) - corners, middle - corners
    within = edges[:, 0] * away[:, 1] - edges[:, 1] * away[:, 0] > 0
    return corners if len(corners) > 2 and bool(within.all()) else np.zeros((0, 2))


def _met(member: Member, face: float) -> Floats:
    """Points (k, 2) of a member's line where it runs level under the face, and of its ends that come up to it [mm]."""
    outline, parts = member.stock.section.outline(24), np.linspace(0.0, 1.0, STATIONS)
    runs = [member.body.place(k, parts, outline) for k in range(len(member.path.segments))]
    level = [run[np.abs(run[..., 2].max(axis=1) - face) <= TOUCH].mean(axis=1)[:, :2] for run in runs]
    ends = [member.body.point_at(end) for end in (0, 1) if not member.path.closed]
    tips = [end[None, :2] for end in ends if abs(float(end[2]) - face) <= member.body.reach + TOUCH]
    return np.vstack([*level, *tips])


def _crossings(member: Member, along: int, at: float, face: float) -> list[tuple[float, float]]:
    """Where the line at `at` across crosses the straights of a member that comes up to the face.

    Only what lies at the face or under it counts, so that a board may lie in an angle whose other leg stands beside it.
    """
    found = []
    for k, segment in enumerate(member.path.segments):
        if not isinstance(segment, Straight) or abs(segment.direction[2]) > LEVEL:
            continue
        points = member.body.place(k, np.array([0.0, 1.0]), member.stock.section.outline(24)).reshape(-1, 3)
        under = points[points[:, 2] <= face + TOUCH]
        if len(under) and float(under[:, 2].max()) >= face - TOUCH:
            found += _crossing(hull(under[:, :2]), along, at)
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
