"""What a fastened panel adds in its own plane: two crossed diagonals as stiff as the sheet and its fasteners."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from fitwright.mechanics.model import Floats, Ints
from fitwright.piece.model import Panel

SCREW_MM = 4.2
"""Diameter of a no. 8 wood screw, taken where the job does not say how a panel is fastened (common practice)."""
METAL_SCREW_N_PER_MM = 1 / 0.15e-3
"""ECCS publication 88 (1995), table of fastener flexibilities: 0.15 mm/kN for a self-tapping screw (from memory)."""
LEAST_AREA = 1.0


@dataclass(frozen=True, eq=False)
class Diagonals:
    """Springs between nodes: pairs (p, 2), stiffness (p,) along each [N/mm]."""

    pairs: Ints
    stiffness: Floats


def diagonals(panel: Panel, nodes: Ints, points: Floats) -> Diagonals:
    """The crossed diagonals that stand for a fastened sheet; nodes (b,), points (b, 3): where it is fastened.

    Each diagonal of a sheet a x b, thickness t, has the stiffness G t d^2 / (2 a b) along itself, in line with a
    fastener at each of its ends. None for slats, which rack freely, for solid boards, which have to be let move across
    the grain, and for panels that only rest.
    Holds for sheets that do not buckle in shear, which is on the soft side to assume for four fasteners alone.
    Source: shear of a rectangle, V = G t (a / b) delta, set equal to that of two crossed bars; slip of screws in wood
    2 rho^1.5 d / 23 [N/mm] by EN 1995-1-1:2004, table 7.1 and 7.1(3) (from memory).
    """
    none = Diagonals(np.zeros((0, 2), dtype=np.intp), np.zeros(0))
    if panel.fastened == "rests" or panel.kind != "sheet" or len(nodes) < 4:
        return none
    first, second = (axis for axis in range(3) if axis != panel.normal)
    corners = [(panel.low[first], panel.low[second]), (panel.high[first], panel.high[second])]
    corners += [(panel.low[first], panel.high[second]), (panel.high[first], panel.low[second])]
    at = points[:, [first, second]]
    found = [int(np.argmin(((at - np.array(c)) ** 2).sum(axis=1))) for c in corners]
    if len({int(nodes[i]) for i in found}) < 4:
        return none
    pairs = nodes[np.array(found).reshape(2, 2)]
    ends = at[np.array(found).reshape(2, 2)]
    sides = np.abs(ends[:, 1] - ends[:, 0])
    return Diagonals(pairs, np.array([_stiffness(panel, *side) for side in sides.tolist()]))


def _stiffness(panel: Panel, a: float, b: float) -> float:
    """Along one diagonal of an a x b sheet [N/mm], its two fasteners in line with it."""
    if a * b < LEAST_AREA:
        return 0.0
    thickness = float(panel.stock.section.dimensions["thickness"])
    sheet = panel.stock.material.g * thickness * (a**2 + b**2) / (2 * a * b)
    slip = fastener_stiffness(panel)
    return sheet if slip is None else 1 / (1 / sheet + 2 / slip)


def fastener_stiffness(panel: Panel) -> float | None:
    """Slip stiffness of one fastener between the panel and a steel member [N/mm]; None for a weld."""
    if panel.fastened == "welded":
        return None
    if panel.stock.material.is_metal:
        return METAL_SCREW_N_PER_MM
    return 2 * float(panel.stock.material.density**1.5) * SCREW_MM / 23
