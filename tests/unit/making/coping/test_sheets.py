from __future__ import annotations

import numpy as np

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
    assert parts[1:] == [[("brace", 0, 1), ("brace", 1, 1)]]
    assert [use.turned for use in sheets[1].uses] == [False, True]
    assert not any(use.turned for use in sheets[0].uses)


def test_the_second_end_of_a_slanted_tube_takes_the_same_paper_half_way_round() -> None:
    """The paper laid on as told must give the line that the end itself asks for, all round."""
    slanted = _sheets(piece_from(RACK))[1]
    paper, end = slanted.template, slanted.uses[1].template
    x = np.linspace(0, paper.girth, 721)
    laid = paper.at((x + paper.girth / 2) % paper.girth, paper.bevelled)
    assert np.abs(laid - end.at(x, end.bevelled)).max() < 0.05
    assert np.abs(paper.at(x, paper.bevelled) - end.at(x, end.bevelled)).max() > 5.0
    assert paper.placement.distance == end.placement.distance


def piece_part(piece: Piece, name: str) -> str:
    """The part that a member was drawn as."""
    return next(member.part for member in piece.members if member.name == name)


def test_sheets_are_named_by_mark_and_end() -> None:
    piece = piece_from(RACK)
    first = _sheets(piece)[0]
    assert first.name == f"{first.template.mark}-start"
