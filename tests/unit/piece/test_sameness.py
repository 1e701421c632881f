"""Which members are the same work, which are mirrored, and their marks."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from fitwright.piece import Piece
from fitwright.piece.sameness import letters

Built = Callable[[str], Piece]


def marks(piece: Piece) -> list[tuple[str, int, str | None]]:
    return [(mark.mark, mark.quantity, mark.mirror_of) for mark in piece.marks]


@pytest.mark.parametrize(
    ("count", "word"), [(0, "A"), (7, "H"), (8, "J"), (12, "N"), (13, "P"), (23, "Z"), (24, "AA"), (25, "AB")]
)
def test_letters_leave_out_those_like_digits(count: int, word: str) -> None:
    assert letters(count) == word


def test_drawn_from_the_other_end_it_is_the_same(built: Built) -> None:
    piece = built("""
stock: {tube: round tube 25 x 2 mm}
parts:
  a: {stock: tube, path: [[0, 0, 0], [0, 0, 300], [200, 0, 300], [200, 150, 300]], radius: 60, ends: free}
  b: {stock: tube, path: [[700, 150, 300], [700, 0, 300], [500, 0, 300], [500, 0, 0]], radius: 60, ends: free}
""")
    assert marks(piece) == [("A1", 2, None)]


def test_overdrawn_ends_do_not_matter(built: Built) -> None:
    piece = built("""
stock: {post: square tube 40 x 40 x 2, rail: square tube 30 x 30 x 2}
parts:
  post: {stock: post, path: [[0, 0, 0], [0, 0, 500]], ends: free, repeat: {x: [0, 400]}}
  low: {stock: rail, path: [[0, 0, 100], [400, 0, 100]]}
  high: {stock: rail, path: [[20, 0, 400], [420, 0, 400]]}
""")
    assert marks(piece) == [("A1", 2, None), ("B1", 2, None)]


def test_copes_turned_against_one_another_make_another_piece(built: Built) -> None:
    piece = built("""
stock: {run: round tube 40 x 2 mm, rail: round tube 25 x 2 mm}
parts:
  post: {stock: run, path: [[0, 0, 0], [0, 0, 500]], ends: free, repeat: {x: [0, 400]}}
  level: {stock: run, path: [[800, -100, 300], [800, 100, 300]], ends: free}
  other post: {stock: run, path: [[1200, 0, 0], [1200, 0, 500]], ends: free}
  rail: {stock: rail, path: [[0, 0, 100], [400, 0, 100]]}
  turned: {stock: rail, path: [[800, 0, 300], [1200, 0, 300]]}
""")
    lengths = {member.part: member.cut_length for member in piece.members}
    assert lengths["rail"] == pytest.approx(lengths["turned"])
    assert marks(piece) == [("A1", 3, None), ("B1", 1, None), ("C1", 1, None), ("D1", 1, None)]


def test_slanted_cuts_the_two_ways(built: Built) -> None:
    """Cut level at 45 degrees at both ends: parallel cuts are one piece, opposed cuts another."""
    piece = built("""
stock: {bar: square bar 20}
parts:
  a: {stock: bar, path: [[0, 0, 100], [300, 0, 400]], wide: back, ends: level}
  b: {stock: bar, path: [[0, 100, 400], [300, 100, 100]], wide: back, ends: level}
  c: {stock: bar, path: [[0, 200, 100], [300, 200, 400]], wide: back, ends: [level, plumb]}
""")
    assert marks(piece) == [("A1", 2, None), ("B1", 1, None)]


def test_angle_ledges_left_and_right(built: Built) -> None:
    """Equal angle is its own mirror image; unequal angle with its long leg out is not."""
    text = """
stock: {{ledge: angle {size}}}
parts:
  ledge: {{stock: ledge, path: [[0, 0, 200], [0, 400, 200]], legs: [right, down], ends: free, mirror: {{x: 300}}}}
"""
    assert marks(built(text.format(size="30 x 30 x 3"))) == [("A1", 2, None)]
    # Square-cut, an unequal angle turned end for end is its own mirror image too.
    assert marks(built(text.format(size="40 x 25 x 3"))) == [("A1", 2, None)]


def test_unequal_angle_with_one_slanted_end_is_a_mirrored_pair(built: Built) -> None:
    piece = built("""
stock: {ledge: angle 40 x 25 x 3}
parts:
  ledge: {stock: ledge, path: [[0, 0, 200], [0, 400, 300]], legs: [right, down], ends: [level, free], mirror: {x: 300}}
""")
    assert marks(piece) == [("A1", 1, None), ("A2", 1, "A1")]


def test_boards_and_hardware_have_marks_of_their_own(built: Built) -> None:
    piece = built("""
stock: {post: round bar 20, board: board 20 x 90 pine, batten: board 15 x 40 pine}
parts:
  post: {stock: post, path: [[0, 0, 0], [0, 0, 300]], ends: free}
  shelf:
    slats: board
    from: [100, 0, 100]
    to: [700, 300, 100]
    gap: 10
    battens: {stock: batten}
    repeat: {z: [0, 200]}
  foot: {foot: {height: 10}, at: [[0, 0, 0], [200, 0, 0]]}
""")
    assert marks(piece) == [("A1", 1, None), ("B1", 6, None), ("B2", 4, None), ("C1", 2, None)]
    assert set(piece.mark_of.values()) == {"A1", "B1", "B2", "C1"}
