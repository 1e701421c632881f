"""What the timber sheet says of screws, spacers, movement, fixings and the order of work."""

from __future__ import annotations

from collections.abc import Iterator

from fitwright.making.timber import Layout, Movement, PanelWork, Spacer, Spare
from fitwright.making.timber.order import drill
from fitwright.sheets.packet.model import Json
from fitwright.sheets.packet.tables import ColumnTold, table
from fitwright.sheets.wording import fine
from fitwright.units import Style


def facts_table(work: PanelWork, style: Style) -> Json | None:
    """Numbers to set tools to; None where there are none."""
    rows = list(_facts(work, style))
    columns: list[ColumnTold] = [("set", "text", 1), ("to", "number", None), ("why", "text", 1.3)]
    return table(columns, rows) if rows else None


def _facts(work: PanelWork, style: Style) -> Iterator[tuple[str, str, str]]:
    if work.spacer is not None:
        yield from _spacer(work.spacer, style)
    if work.layout is not None:
        yield from _screws(work.layout, style)
    if work.movement is not None:
        yield from _movement(work.movement, style)
    for fixing in work.fixings:
        at = f"{style.length(fixing.along)} along, {style.length(fixing.across)} across, from the low corner"
        size = f"slot + {style.length(fixing.slot)}" if fixing.slot else "tight"
        yield f"{fixing.name}: {fixing.label}", size, at


def _spacer(spacer: Spacer, style: Style) -> Iterator[tuple[str, str, str]]:
    yield (
        f"spacer blocks, {spacer.count} of them", fine(style).length(spacer.thickness),
        f"as thick as the gap, about {style.length(spacer.length)} long",
    )  # fmt: skip


def _screws(layout: Layout, style: Style) -> Iterator[tuple[str, str, str]]:
    screw = layout.screw
    yield f"screws {screw.label}", f"{layout.count}", f"in one; {screw.basis}"
    yield "hole in the batten", drill(layout.clearance, style), "the screw slides through and draws the board down"
    yield (
        "pilot in the board", drill(layout.pilot, style),
        f"stopped {style.length(layout.depth)} from the batten's face: {style.length(layout.cover)} of wood left",
    )  # fmt: skip
    for fence, places in layout.rows:
        yield (
            f"fence {style.length(fence)} from the batten's edge", str(len(places)),
            f"holes at {', '.join(style.bare(at) for at in places)} from its end",
        )  # fmt: skip


def _movement(movement: Movement, style: Style) -> Iterator[tuple[str, str, str]]:
    seasons = f"from {movement.dry:g} to {movement.humid:g} % moisture"
    if movement.gap is not None and movement.least_gap is not None:
        yield "gap when the boards have swollen", style.length(movement.least_gap), seasons
    else:
        yield "it moves across the grain by", style.length(movement.change), seasons


def work_notes(work: PanelWork, spares: tuple[Spare, ...], style: Style) -> list[str]:
    """Notes on the layout, and the spare boards of its stocks."""
    own = {stop.stock for stop in work.stops}
    said = [
        f"{spare.count} spare of {style.length(spare.length)}, {spare.stock}, {'is' if spare.count == 1 else 'are'} in "
        f"the cutting plan for knots and end checks: {100 * spare.fraction:.0f} % of a board is reckoned to be good "
        f"({spare.basis})."
        for spare in spares
        if spare.stock in own
    ]
    return [*work.notes, *said]
