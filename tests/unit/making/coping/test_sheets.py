from __future__ import annotations

from fitwright.making.coping import CopeSheet, cope_sheets
from fitwright.piece import Piece
from tests.unit.making.coping.branches import piece_from

RACK = """
stock: {t: round tube 32 x 2, s: round tube 19 x 1.5}
parts:
  post: {stock: t, path: [[0, 0, 0], [0, 0, 900]], ends: free, repeat: {x: [0, 400, 900]}}
  rail: {stock: t, path: [[0, 0, 300], [400, 0, 300]], repeat: {z: [300, 500]}}
  long: {stock: t, path: [[400, 0, 300], [900, 0, 300]]}
  brace: {stock: t, path: [[400, 0, 400], [900, 0, 800]]}
"""


def _sheets(piece: Piece) -> tuple[CopeSheet, ...]:
    marks = tuple(mark for mark in piece.marks if mark.kind == "member")
    by_name = {member.name: member for member in piece.members}
    return cope_sheets(piece, {mark.mark: by_name[mark.names[0]] for mark in marks}, marks)


def test_equal_copes_share_a_template_and_others_do_not() -> None:
    piece = piece_from(RACK)
    sheets = _sheets(piece)
    parts = [
        [(piece_part(piece, use.template.member), use.template.end, use.quantity) for use in sheet.uses]
        for sheet in sheets
    ]
    # Rails of two lengths end alike; the brace is the same at both ends, the one turned over on the other.
    assert parts[0] == [("rail", 0, 2), ("rail", 1, 2), ("long", 0, 1), ("long", 1, 1)]
    assert sheets[0].quantity == 6
    assert {use[0] for group in parts[1:] for use in group} == {"brace"}


def piece_part(piece: Piece, name: str) -> str:
    """The part that a member was drawn as."""
    return next(member.part for member in piece.members if member.name == name)


def test_sheets_are_named_by_mark_and_end() -> None:
    piece = piece_from(RACK)
    first = _sheets(piece)[0]
    assert first.name == f"{first.template.mark}-start"
