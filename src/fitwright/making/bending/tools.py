"""What makes each bend of a member: the die, which way the section is bent, what springback is expected."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from fitwright.making.bending.errors import BendError
from fitwright.making.bending.recorded import by_trials
from fitwright.making.bending.springback import Springback, rolled_radius, springback
from fitwright.making.bending.table import BendTable
from fitwright.piece.body import Body
from fitwright.piece.path import Arc, Path
from fitwright.shop import Die, Shop
from fitwright.shop.learning import Learnt
from fitwright.stock import RoundBar, Stock

Floats = NDArray[np.float64]


@dataclass(frozen=True, eq=False)
class Tool:
    """What makes one bend: the die or None, which way the section is bent (2,) and what springback is expected.

    neutral: distance of the centroid outward from the path; reach: of the outside face; depth: size of the section
    across the bend [mm].
    """

    die: Die | None
    across: Floats
    neutral: float
    reach: float
    depth: float
    springback: Springback | None
    command_radius: float

    def stretch(self, radius: float) -> float:
        """Strain of the outermost fibre at a bend radius on the path [mm]: 0 where there is no section.

        Holds for plane sections, stretched about the centroid. Source: beam kinematics.
        """
        return (self.reach - self.neutral) / (radius + self.neutral)


def outward_at_bends(path: Path, frame: Floats | None) -> tuple[Floats, ...]:
    """For each bend, the direction (2,) in the section's (u, v) from its centre outward.

    Without a frame the section is taken to be bent the easy way, across its wider side.
    """
    arcs = [(k, segment) for k, segment in enumerate(path.segments) if isinstance(segment, Arc)]
    if frame is None:
        return tuple(np.array([0.0, 1.0]) for _ in arcs)
    frames = _frames(path, frame)
    return tuple(frames[k] @ ((arc.start - arc.centre) / arc.radius) for k, arc in arcs)


def _frames(path: Path, frame: Floats) -> tuple[Floats, ...]:
    # Any section will do: a body carries its frame along whatever its shape.
    return Body(path, frame, RoundBar(1.0)).frames


def tools_for(
    path: Path,
    table: BendTable,
    stock: Stock | None,
    shop: Shop | None,
    frame: Floats | None,
    learnt: Learnt | None = None,
) -> tuple[Tool, ...]:
    """The tool of each bend of the table. Arguments as `bend_sheet`."""
    outward = _one_a_bend(path, table, outward_at_bends(path, frame))
    return tuple(
        _tool(bend.radius, bend.angle, across, stock, shop, learnt)
        for bend, across in zip(table.bends, outward, strict=True)
    )


def _one_a_bend(path: Path, table: BendTable, outward: tuple[Floats, ...]) -> tuple[Floats, ...]:
    """The direction at the first arc of each bend: several arcs on one circle are one bend of the table."""
    arcs = [segment for segment in path.segments if isinstance(segment, Arc)]
    chosen, k = [], 0
    for bend in table.bends:
        chosen.append(outward[k])
        angle = 0.0
        while angle < bend.angle - 1e-9:
            angle += arcs[k].angle
            k += 1
    return tuple(chosen)


def _tool(
    radius: float, angle: float, across: Floats, stock: Stock | None, shop: Shop | None, learnt: Learnt | None
) -> Tool:
    if stock is None:
        return Tool(None, across, 0.0, 0.0, 0.0, None, radius)
    section = stock.section
    die = shop.die_for(section, radius) if shop else None
    neutral = float(section.centroid @ across)
    heights = section.outline() @ across
    reach, depth = float(heights.max()), float(np.ptp(heights))
    if die is not None and die.rolls:
        return Tool(die, across, neutral, reach, depth, None, _rolled(stock, radius + neutral, across) - neutral)
    expected = _prior(stock, radius + neutral, angle, across)
    if expected is not None and die is not None and learnt is not None:
        expected = by_trials(expected, die, stock.label, angle, learnt)
    return Tool(die, across, neutral, reach, depth, expected, radius)


def _prior(stock: Stock, radius: float, angle: float, across: Floats) -> Springback | None:
    try:
        return springback(stock.section, stock.material, radius, angle, across)
    except BendError:
        return None


def _rolled(stock: Stock, radius: float, across: Floats) -> float:
    if stock.material.fy is None:
        return radius
    try:
        return rolled_radius(stock.section, radius, stock.material.fy, stock.material.e, across)
    except BendError:
        return radius
