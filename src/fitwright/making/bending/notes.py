"""What a bend sheet says in words."""

from __future__ import annotations

import math

from fitwright.making.bending.model import FULL_TURN, Collision, Trim
from fitwright.making.bending.order import Order
from fitwright.making.bending.table import Bend
from fitwright.making.bending.tools import Tool
from fitwright.units import Style

LEAST_TOLD_MM = 0.5
LARGEST_WITH_CORNER = math.radians(150)


def notes_of(
    order: Order, trims: tuple[Trim, Trim], hits: tuple[Collision, ...] | None, closed: bool, style: Style
) -> list[str]:
    """The notes of a sheet: where to start, what to trim and how, how sure the angles are."""
    notes = []
    if order.backwards:
        notes.append("Start from the other end than the one drawn first.")
    if _full_turn(order):
        notes.append(_ring_note(trims, style))
    else:
        notes += [_trim_note(trim, style) for trim in trims if trim.allowance > 0]
    if closed and len(order.tools) > 1:
        notes.append(_loop_note(trims))
    if any(tool.die and tool.die.rolls for tool in order.tools):
        radii = ", ".join(style.length(tool.command_radius) for tool in order.tools)
        notes.append(f"Roll to a radius of {radii} on the centreline; it springs open to the radius drawn.")
    if any(tool.springback for tool in order.tools):
        notes.append(_springback_note(order, style))
        notes += _growth_note(order, style)
    if hits:
        notes.append("Neither end can be started from without running into something: see the findings.")
    return notes


def _loop_note(trims: tuple[Trim, Trim]) -> str:
    if max(trim.allowance for trim in trims) > 0:
        return (
            "The ends overlap when the last bend closes the loop: let them pass side by side, then cut both "
            "so that they meet at the butt."
        )
    return "The last bend brings both ends together at the butt."


def _full_turn(order: Order) -> bool:
    return len(order.tools) == 1 and order.table.bends[0].angle > FULL_TURN


def _ring_note(trims: tuple[Trim, Trim], style: Style) -> str:
    return (
        f"Leave {style.length(max(trim.allowance for trim in trims))} on at each end, which the rolls leave straight; "
        "roll past a full turn, cut through both ends where they overlap, and butt them."
    )


def _trim_note(trim: Trim, style: Style) -> str:
    return (
        f"Leave {style.length(trim.allowance)} on at the {trim.end}; after bending measure "
        f"{style.length(trim.measured)} along the leg from {trim.place}, and cut."
    )


def _springback_note(order: Order, style: Style) -> str:
    worst = max((tool.springback for tool in order.tools if tool.springback), key=lambda one: one.high - one.low)
    if all(tool.springback.trials for tool in order.tools if tool.springback):
        return (
            f"The angles to bend to are from {worst.basis}, {style.angle(worst.low)} to {style.angle(worst.high)} "
            f"for {style.angle(worst.kept * worst.command)} (90 %)."
        )
    return (
        f"The angles to bend to are estimated from the material's yield stress, ± {style.angle(worst.spread)} "
        "(one standard deviation). Bend a trial, measure it, then set the overbend."
    )


def _growth_note(order: Order, style: Style) -> list[str]:
    """Only while the take-up is not measured: a measured one has this in it."""
    pairs = zip(order.tools, order.table.bends, strict=True)
    grown = sum(grows_by(tool, bend) for tool, bend in pairs if tool.die is not None and tool.die.take_up == 1.0)
    if grown < LEAST_TOLD_MM:
        return []
    return [
        f"The bends open to a larger radius: with the take-up not yet measured, expect the legs "
        f"{style.length(grown)} longer in all than drawn."
    ]


def grows_by(tool: Tool, bend: Bend) -> float:
    """How much longer the legs at one bend come out, corner to corner, because it opens to R / kept [mm].

    Tube in the bend is R times the angle made; both tangents grow to R / kept tan(angle / 2).
    Holds for a centreline that keeps its length and angles of less than half a turn; 0 beyond.
    Source: plane geometry.
    """
    if tool.springback is None or bend.angle > LARGEST_WITH_CORNER:
        return 0.0
    opened = bend.radius / tool.springback.kept - bend.radius
    return opened * (2 * math.tan(bend.angle / 2) - bend.angle)
