"""The piece in words: what the picture shows, for those who do not see it, and for tapping on a part."""

from __future__ import annotations

from dataclasses import dataclass

from fitwright.assess import Assessment
from fitwright.piece.model import Mark


@dataclass(frozen=True)
class PartTold:
    """One mark: the part in the job file, its stock, how many, its size, and whether it has a bend sheet."""

    mark: str
    part: str
    stock: str
    quantity: int
    size: str
    bent: bool = False


@dataclass(frozen=True)
class PieceTold:
    """The whole: overall size, weight, the gaps in its place, and every mark."""

    size: str
    weight: str
    gaps: tuple[str, ...]
    parts: tuple[PartTold, ...]


def piece_told(assessment: Assessment) -> PieceTold:
    """The piece in words."""
    piece, style = assessment.piece, assessment.job.style
    wide, deep, high = (style.length(float(x)) for x in piece.envelope.high - piece.envelope.low)
    gaps = () if assessment.fit is None else assessment.fit.gaps
    return PieceTold(
        f"{wide} wide, {deep} deep, {high} high",
        style.weight(piece.mass),
        tuple(f"{gap.side} {style.length(gap.value)}" for gap in gaps),
        tuple(_told(assessment, mark) for mark in piece.marks),
    )


def _told(assessment: Assessment, mark: Mark) -> PartTold:
    piece, style = assessment.piece, assessment.job.style
    member = assessment.made.get(mark.mark)
    if member is not None:
        sheet = assessment.bend_sheets.get(mark.mark)
        length = style.length(sheet.blank if sheet is not None else member.cut_length)
        size = f"blank {length}, bent" if sheet is not None else f"cut {length}"
        return PartTold(mark.mark, member.part, member.stock.label, mark.quantity, size, sheet is not None)
    for panel in piece.panels:
        for k, board in enumerate(panel.boards):
            if f"{panel.name} {board.role} {k + 1}" == mark.names[0]:
                size = " × ".join(style.length(x) for x in (board.length, board.width, board.thickness))
                return PartTold(mark.mark, panel.part, f"{board.role}: {board.stock.label}", mark.quantity, size)
    items = [item for item in piece.hardware if item.name in mark.names]
    return PartTold(mark.mark, items[0].part, items[0].label, sum(item.each for item in items), "bought")
