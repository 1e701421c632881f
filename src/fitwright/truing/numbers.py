"""The numbers that a shop works to, by what they belong to, so that old and new can be laid side by side."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from fitwright.making.bench import BenchPlan
from fitwright.making.bending import BendSheet
from fitwright.piece.model import Member, Piece


@dataclass(frozen=True)
class Number:
    """One number: sheet, the mark and the piece of it, what it is, its value [mm] or [rad]."""

    sheet: str
    mark: str
    name: str
    what: str
    value: float
    angle: bool = False


Numbers = Mapping[tuple[str, str, str], Number]


def numbers_of(piece: Piece, sheets: Mapping[str, BendSheet], bench: Sequence[BenchPlan]) -> Numbers:
    """Every length to cut, mark and angle to bend, block and board of a piece."""
    found = [
        *(number for member in piece.members for number in _of_member(piece, member, sheets)),
        *(number for panel in piece.panels for number in _of_panel(piece, panel.name)),
        *(number for plan in bench if not plan.subassembly.same_as for number in _of_bench(plan)),
    ]
    return {(number.sheet, number.name, number.what): number for number in found}


def _of_member(piece: Piece, member: Member, sheets: Mapping[str, BendSheet]) -> list[Number]:
    mark = piece.mark_of.get(member.name, member.name)
    sheet = sheets.get(mark)
    if sheet is None:
        return [Number("cut", mark, member.name, "cut length", member.cut_length)]
    found = [Number("cut", mark, member.name, "blank", sheet.blank)]
    for step in sheet.steps:
        found.append(Number("bend", mark, member.name, f"mark of bend {step.number}", step.mark))
    for trim in sheet.trims:
        found.append(Number("bend", mark, member.name, f"{trim.end}, from {trim.place} to the tip", trim.measured))
    return found


def _of_panel(piece: Piece, name: str) -> list[Number]:
    panel = next(panel for panel in piece.panels if panel.name == name)
    counted: dict[tuple[str, str], int] = {}
    found = []
    for number, board in enumerate(panel.boards, 1):
        mark = piece.mark_of.get(f"{name} {board.role} {number}", panel.part)
        if (mark, board.role) in counted:
            continue
        counted[mark, board.role] = 1
        found.append(Number("timber", mark, name, f"{board.role}, length", board.length))
        if board.role == "sheet":
            found.append(Number("timber", mark, name, "sheet, width", board.width))
    return found


def _of_bench(plan: BenchPlan) -> list[Number]:
    found, seen = [], Counter[str]()
    for block in sorted(plan.blocks, key=lambda block: -block.length):
        seen[block.why] += 1
        which = f", number {seen[block.why]}" if seen[block.why] > 1 else ""
        found.append(Number("bench", block.letter, plan.name, f"block, {block.why}{which}", block.length))
    diagonals = 0
    for check in plan.checks:
        diagonals += check.kind == "diagonal"
        short = {"diagonal": f"diagonal {diagonals}", "height": "height above the bench"}
        name = short.get(check.kind, check.name.split(",")[0])
        found.append(Number("bench", "", plan.name, name, check.length))
    return found
