"""Sheets of metal on the frame: what they are cut to, and the stitches that hold those which are welded down."""

from __future__ import annotations

import math
from collections.abc import Iterator

import numpy as np

from fitwright.checks.fillets import leg
from fitwright.checks.welds import thickness
from fitwright.making.plan import DeckGiven
from fitwright.making.welding import WeldPlan
from fitwright.piece.body import sampled
from fitwright.piece.model import Member, Panel, Piece
from fitwright.units import Style

STITCH_MM, PITCH_MM = 25.0, 150.0
"""Length of a stitch, and from one to the next (common practice for sheet up to 3 mm on a frame)."""
SPEED = 5.0
"""Of the arc along a weld where the piece has no other to tell it [mm/s] (from memory)."""
STEP_MM = 2.0


def decks_of(piece: Piece, welding: WeldPlan | None, style: Style) -> Iterator[DeckGiven]:
    """What the plan has to know of each part that is sheets of metal."""
    for part, panels in piece.panels_by_part.items():
        first = panels[0]
        if not first.stock.material.is_metal:
            continue
        lines = stitches(piece, first) if first.fastened == "welded" else ()
        thin = min([first.boards[0].thickness, *(thickness(piece.members[k]) for k in first.rests_on)])
        count = sum(number for _, number in lines) * len(panels)
        yield DeckGiven(
            part,
            len(panels),
            _size(first, style),
            lines,
            style.fine().length(leg(thin).make) if lines else "",
            style.length(STITCH_MM),
            count * STITCH_MM / _speed(welding),
            panel_title(first),
        )


def panel_title(panel: Panel) -> str:
    """What a panel's page is called, and what its steps point to: of metal it is a sheet."""
    return f"{'Sheet' if panel.stock.material.is_metal else 'Timber'}: {panel.part}"


def stitches(piece: Piece, panel: Panel) -> tuple[tuple[str, int], ...]:
    """The members that a sheet lies along, and how many stitches go on each: at both its ends and evenly between.

    Holds for sheets that are not counted on to stiffen the frame. Source: common practice.
    """
    runs = ((piece.members[k].name, length_under(piece.members[k], panel)) for k in panel.rests_on)
    return tuple((name, max(2, math.ceil(run / PITCH_MM) + 1)) for name, run in runs if run >= 2 * STITCH_MM)


def length_under(member: Member, panel: Panel) -> float:
    """How far a member runs along under a panel, measured in the panel's plane [mm]; posts under it do not."""
    flat = [axis for axis in range(3) if axis != panel.normal]
    total = 0.0
    for segment in member.path.segments:
        share = np.linspace(0.0, 1.0, math.ceil(segment.length / STEP_MM) + 1)
        points = sampled(segment, share)[:, flat]
        middles, steps = (points[1:] + points[:-1]) / 2, np.linalg.norm(np.diff(points, axis=0), axis=1)
        inside = ((middles >= panel.low[flat]) & (middles <= panel.high[flat])).all(axis=1)
        total += float(steps[inside].sum())
    return total


def _size(panel: Panel, style: Style) -> str:
    board = panel.boards[0]
    return f"{style.length(board.length)} x {style.length(board.width)}, {style.fine().length(board.thickness)} thick"


def _speed(welding: WeldPlan | None) -> float:
    if welding is None or not welding.welds or not welding.used.arc_time:
        return SPEED
    return sum(weld.length for weld in welding.welds) / welding.used.arc_time
