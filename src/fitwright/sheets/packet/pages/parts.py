"""The parts list: everything that is made, by mark."""

from __future__ import annotations

import math
from collections.abc import Sequence

from fitwright.assess import Assessment
from fitwright.piece.model import CutKind, EndCut, Mark, Member
from fitwright.piece.sawn import OneCut, one_cut
from fitwright.sheets.packet.model import Page
from fitwright.sheets.packet.tables import ColumnTold, table

SQUARE_WITHIN_RAD = math.radians(0.05)


def parts_page(assessment: Assessment) -> Page:
    """Members with their ends, then the boards of panels."""
    style = assessment.job.style
    columns: list[ColumnTold] = [
        ("mark", "mark", None), ("what, and of what stock", "text", 4), ("cut length", "number", None),
        ("make", "number", None), ("ends; section of a board", "text", 2.6), ("each weighs", "number", None),
    ]  # fmt: skip
    members = [_member_row(assessment, mark) for mark in assessment.member_marks]
    boards = [_board_row(assessment, mark) for mark in assessment.piece.marks if mark.kind == "board"]
    count = sum(mark.quantity for mark in assessment.piece.marks if mark.kind != "hardware")
    total = f"{count} pieces to make; the whole piece weighs {style.weight(assessment.piece.mass)}, hardware included."
    notes = [total]
    if assessment.bend_sheets:
        notes.append("The cut length of a bent part is its blank, allowances included: see its bend sheet.")
    return Page("listing", "Parts list", {"tables": [table(columns, members + boards)], "notes": notes})


def saw_length(assessment: Assessment, mark: str) -> float:
    """What the saw cuts: the blank of a bent member, tip to tip of a straight one [mm]."""
    sheet = assessment.bend_sheets.get(mark)
    return sheet.blank if sheet else assessment.made[mark].cut_length


def what_it_is(member: Member, mark: Mark, parts: Sequence[str] = ()) -> tuple[str, str]:
    """The part's name with what is special about it, and its stock; parts: all that have this mark, being alike."""
    said = [" and ".join(parts) or member.part]
    if member.sleeve_of is not None:
        said.append("sleeve")
    if member.path.bent:
        said.append("ring" if member.ring else "bent")
    if mark.mirror_of:
        said.append(f"mirror of {mark.mirror_of}")
    return ", ".join(said), member.stock.label


def end_in_words(cut: EndCut, saw: OneCut | None = None) -> str:
    """How an end is cut; saw: how it is set, where that is known.

    >>> end_in_words(EndCut(CutKind.MITRE, math.radians(45)))
    'mitre 45.0°'
    """
    if cut.kind is CutKind.MITRE and len(cut.planes) > 1:
        return f"mitre in {len(cut.planes)} cuts"
    if saw is not None and saw.compound:
        return f"mitre {math.degrees(saw.swing):.1f}° with bevel {math.degrees(saw.bevel):.1f}°"
    tilted = abs(cut.angle) > SQUARE_WITHIN_RAD and cut.kind is not CutKind.COPE
    return f"{cut.kind.value} {math.degrees(cut.angle):.1f}°" if tilted else cut.kind.value


def ends_in_words(member: Member) -> str:
    """Both ends, told once where they are the same."""
    if member.path.closed:
        return "butted"
    first, last = (end_in_words(cut, one_cut(member, end)) for end, cut in enumerate(member.ends))
    return f"both {first}" if first == last else f"{first}; {last}"


def _member_row(assessment: Assessment, mark: Mark) -> tuple[object, ...]:
    member, style = assessment.made[mark.mark], assessment.job.style
    parts = list(dict.fromkeys(m.part for m in assessment.piece.members if m.name in mark.names))
    return (
        mark.mark,
        what_it_is(member, mark, parts),
        style.length(saw_length(assessment, mark.mark)),
        str(mark.quantity),
        ends_in_words(member),
        style.weight(member.mass),
    )


def _board_row(assessment: Assessment, mark: Mark) -> tuple[object, ...]:
    piece, style = assessment.piece, assessment.job.style
    panel, board = next(
        (panel, board)
        for panel in piece.panels
        for k, board in enumerate(panel.boards)
        if f"{panel.name} {board.role} {k + 1}" == mark.names[0]
    )
    return (
        mark.mark,
        (f"{panel.part}: {board.role}", board.stock.label),
        style.length(board.length),
        str(mark.quantity),
        f"{style.bare(board.width)} x {style.bare(board.thickness)}",
        style.weight(board.mass),
    )
