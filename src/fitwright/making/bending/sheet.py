"""From a member's path to its bend sheet: blank, marks, rotations, angles, and from which end to start."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

from fitwright.making.bending.errors import BendError
from fitwright.making.bending.model import BendSheet, BendStep, Collision, EndNeed, Trim
from fitwright.making.bending.notes import notes_of
from fitwright.making.bending.order import Order, order_collisions, preference
from fitwright.making.bending.table import table_of
from fitwright.making.bending.tools import tools_for
from fitwright.piece.model import Member
from fitwright.piece.path import Path
from fitwright.shop import Shop
from fitwright.shop.learning import Learnt
from fitwright.stock import Stock
from fitwright.units import Style

Floats = NDArray[np.float64]

SQUARE_ENDS = (EndNeed(), EndNeed())
# Bent less than this, the back of a bend gives no edge to measure from; its corner does.
BACK_FROM_RAD = math.radians(89.5)


def bend_sheet(
    subject: str,
    path: Path,
    stock: Stock | None = None,
    shop: Shop | None = None,
    *,
    ends: tuple[EndNeed, EndNeed] = SQUARE_ENDS,
    frame: Floats | None = None,
    style: Style | None = None,
    learnt: Learnt | None = None,
) -> BendSheet:
    """The bend sheet of one member.

    path: the member's line [mm]; stock: None where only the geometry is asked for (then no springback);
    shop: for dies, machine and allowance, None where there is none; frame (2, 3): directions of the section's u and v
    at the start of the path, needed for a section that is neither round nor square; ends: where the finished tips lie.
    learnt: from the shop's trials, None for physics alone.

    The blank is cut with what the grip needs and what is trimmed after bending left on. Of the two ends the one is
    started from that runs into nothing, then the one that wastes less; where both do, the first of the path.

    Raises BendError for a straight path and for a sharp corner.
    Holds for bends whose centreline keeps its length (radius of 2 diameters and more), or whose take-up was measured.
    Source: tangent points and arcs by plane geometry; machine practice (common practice).
    """
    table = table_of(path)
    if not table.bends:
        raise BendError(f"{subject} is straight: there is nothing to bend")
    style = style or Style.metric()
    tools = tools_for(path, table, stock, shop, frame, learnt)
    forward = Order(table, tools, ends, backwards=False)
    trim = shop.trim_allowance if shop else 0.0
    orders = (forward,) if len(table.bends) == 1 and path.closed else (forward, forward.turned_round())
    tried = [(order, order_collisions(order, stock, shop, trim, path.closed)) for order in orders]
    order, hits = min(tried, key=lambda one: preference(one[0], one[1], trim))
    return _sheet(subject, order, hits, stock, trim, path.closed, style)


def bend_sheet_of(
    member: Member, mark: str, shop: Shop, style: Style | None = None, learnt: Learnt | None = None
) -> BendSheet:
    """The bend sheet of a member of the piece, with its end cuts. Raises, Holds for and Source: as `bend_sheet`."""
    ends = (EndNeed.of(member.ends[0]), EndNeed.of(member.ends[1]))
    frame = member.body.frame
    return bend_sheet(mark, member.path, member.stock, shop, ends=ends, frame=frame, style=style, learnt=learnt)


def _sheet(
    subject: str,
    order: Order,
    hits: tuple[Collision, ...] | None,
    stock: Stock | None,
    trim: float,
    closed: bool,
    style: Style,
) -> BendSheet:
    allowances = order.allowances(trim)
    developed = sum(order.table.straights) + sum(order.taken_up)
    finished = developed + order.ends[0].longest + order.ends[1].longest
    trims = (_trim(order, 0, allowances[0]), _trim(order, 1, allowances[1]))
    return BendSheet(
        subject,
        stock.label if stock else "",
        closed,
        order.backwards,
        order.table,
        _steps(order, allowances[0]),
        order.finished_straights[1],
        developed,
        finished,
        finished + sum(allowances),
        trims,
        hits,
        tuple(notes_of(order, trims, hits, closed, style)),
    )


def _steps(order: Order, allowance: float) -> tuple[BendStep, ...]:
    steps: list[BendStep] = []
    at, turn = allowance, 0.0
    for number, (bend, tool, taken) in enumerate(zip(order.table.bends, order.tools, order.taken_up, strict=True), 1):
        straight = order.finished_straights[0] if number == 1 else bend.straight_before
        at, turn = at + straight, turn + bend.rotation
        steps.append(
            BendStep(
                number=number,
                mark=at + (tool.die.offset if tool.die else 0.0),
                tangent=at,
                straight_before=straight,
                rotation=bend.rotation,
                turned=turn,
                angle=bend.angle,
                command_angle=tool.springback.command if tool.springback else bend.angle,
                radius=bend.radius,
                command_radius=tool.command_radius,
                taken_up=taken,
                depth=tool.depth,
                stretch=tool.stretch(bend.radius),
                die=tool.die.name if tool.die else "",
                springback=tool.springback,
            )
        )
        at += taken
    return tuple(steps)


def _trim(order: Order, which: int, allowance: float) -> Trim:
    """Measured from the back of the bend next to the end, which a square finds; of a shallow bend from its corner."""
    bend, tool = order.table.bends[-which], order.tools[-which]
    keep = order.finished_straights[which]
    end = ("start", "finish")[which]
    number = 1 if which == 0 else len(order.tools)
    if bend.angle >= BACK_FROM_RAD:
        return Trim(end, allowance, keep, keep + bend.radius + tool.reach, f"the back of bend {number}")
    corner = keep + bend.radius * math.tan(bend.angle / 2)
    return Trim(end, allowance, keep, corner, f"the corner of the centrelines at bend {number}")
