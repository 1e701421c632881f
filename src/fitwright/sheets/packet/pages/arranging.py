"""The general arrangement."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

from fitwright.assess import Assessment
from fitwright.piece import Piece
from fitwright.sheets.drawing import DimensionRequest, Drawing, Paper, TitleBlock, arrangement
from fitwright.sheets.packet.model import Page

# of the frame from the edge of the paper: the foot of the page stands in it [mm]
MARGIN = 15.0
# heights closer than this to the floor or the top are told by the overall height [mm]
LEAST = 5.0
# more levels than this crowd the view
MOST_LEVELS = 7
UNITS = {"inch": "inches", "mm": "millimetres", "cm": "centimetres"}


def arrangement_drawing(assessment: Assessment, paper: Paper, made_on: date) -> Drawing:
    """Three views and an isometric with marks, on a sheet of this paper."""
    job = assessment.job
    block = TitleBlock(
        title="General arrangement",
        job=job.name,
        sheet=paper.name,
        date=made_on.isoformat(),
        units=UNITS[job.style.unit],
    )
    shown = levels(assessment.piece)
    return arrangement(assessment.meshes, job.style, shown, paper=replace(paper, margin=MARGIN), block=block)


def levels(piece: Piece) -> tuple[DimensionRequest, ...]:
    """Heights above the floor of shelves and of level members, and the size of the metal where casters stick out."""
    low, high = piece.envelope.low, piece.envelope.high
    heights = {round(height, 1): height for height in (*_panel_heights(piece), *_member_heights(piece))}
    inside = [height for height in sorted(heights.values()) if low[2] + LEAST < height < high[2] - LEAST]
    side = (float(low[0]), float(low[1]))
    return tuple(
        DimensionRequest((*side, float(low[2])), (*side, height), "z", "side") for height in inside[:MOST_LEVELS]
    )


def _panel_heights(piece: Piece) -> list[float]:
    """The resting faces of level panels."""
    return [
        float(min(board.low[2] for board in panel.boards if board.role != "batten"))
        for panel in piece.panels
        if panel.normal == 2 and panel.grows > 0
    ]


def _member_heights(piece: Piece) -> list[float]:
    """The axes of straight level members that carry no panel."""
    carrying = {index for panel in piece.panels for index in panel.rests_on}
    return [
        float(member.path.start[2])
        for member in piece.members
        if member.index not in carrying
        and not member.path.bent
        and member.sleeve_of is None
        and abs(float(member.path.start[2] - member.path.end[2])) < LEAST
    ]


def arrangement_page(whole: Drawing) -> Page:
    """The drawing as a page of its own."""
    return Page("arrangement", "General arrangement", {}, whole=whole)
