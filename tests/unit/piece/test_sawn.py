"""How a saw is set for an end; angles worked out by hand."""

from __future__ import annotations

from collections.abc import Callable
from math import asin, atan, cos, degrees, sqrt

import pytest

from fitwright.piece import Member, Piece
from fitwright.piece.sawn import leaning_alike, one_cut

Built = Callable[[str], Piece]


def part(piece: Piece, name: str) -> Member:
    return next(member for member in piece.members if member.part == name)


def test_a_mitre_one_way_is_a_swing_whichever_side_the_member_lies_on(built: Built) -> None:
    piece = built("""
stock: {tube: rectangular tube 60 x 30 x 3, flat: flat 40 x 5, pole: round tube 30 x 2}
parts:
  upright: {stock: tube, path: [[0, 0, 0], [0, 0, 400], [400, 0, 400], [400, 0, 0]], wide: x, ends: free}
  thin: {stock: flat, path: [[0, 300, 0], [0, 300, 400], [400, 300, 400], [400, 300, 0]], wide: y, ends: free}
  leg: {stock: pole, path: [[0, 600, 0], [100, 660, 500]], ends: level}
""")
    for name in ("upright", "thin"):
        cuts = [one_cut(part(piece, name), end) for end in (0, 1)]
        assert all(cut is not None and not cut.compound for cut in cuts)
        assert [degrees(cut.swing) for cut in cuts if cut is not None] == pytest.approx([0, 45])
    # A round tube has no side to lie on: it is rolled until the whole tilt is a swing.
    cut = one_cut(part(piece, "leg"), 0)
    assert cut is not None
    assert degrees(cut.swing) == pytest.approx(degrees(atan(sqrt(100**2 + 60**2) / 500)))
    assert not cut.compound


def test_a_square_leg_splayed_two_ways_is_swung_and_bevelled(built: Built) -> None:
    piece = built("""
stock: {leg: square tube 40 x 40 x 3}
parts:
  leg: {stock: leg, path: [[0, 0, 0], [100, 60, 500]], wide: right, ends: level}
""")
    (leg,) = piece.members
    cut = one_cut(leg, 0)
    assert cut is not None
    assert cut.compound
    # Lying on the side across y, the floor's trace leans over as the leg does along x: 100 against sqrt(60, 500).
    # What is left of its tilt is the blade's.
    long = sqrt(100**2 + 60**2 + 500**2)
    swing = atan(100 * 500 / (long * sqrt(60**2 + 500**2)) / (500 / long))
    bevel = asin(60 / sqrt(60**2 + 500**2))
    assert (cut.swing, cut.bevel) == pytest.approx((swing, bevel))
    assert cos(cut.swing) * cos(cut.bevel) == pytest.approx(cos(leg.ends[0].angle))


def test_no_one_pass_cuts_a_cope_or_two_planes(built: Built) -> None:
    piece = built("""
stock: {square: square tube 30 x 30 x 2, round: round tube 30 x 2}
parts:
  post: {stock: square, path: [[0, 0, 0], [0, 0, 600]], ends: free}
  rail: {stock: square, path: [[0, 0, 300], [500, 0, 300]], ends: [auto, free]}
  brace: {stock: square, path: [[0, 0, 300], [500, 0, 100]], ends: [auto, free]}
  pole: {stock: round, path: [[0, 300, 0], [0, 300, 600]], ends: free}
  arm: {stock: round, path: [[0, 300, 300], [500, 300, 300]], ends: [auto, free]}
""")
    for name in ("rail", "brace", "arm"):
        assert one_cut(part(piece, name), 0) is None
        free = one_cut(part(piece, name), 1)
        assert free is not None
        assert free.swing == 0


def test_the_mitres_of_a_brace_lean_alike_and_those_of_a_frame_toward_each_other(built: Built) -> None:
    piece = built("""
stock: {tube: square tube 30 x 30 x 2}
parts:
  post: {stock: tube, path: [[0, 0, 0], [0, 0, 600]], ends: free, repeat: {x: [0, 500]}}
  brace: {stock: tube, path: [[0, 0, 100], [500, 0, 400]]}
  frame: {stock: tube, path: [[0, 500, 0], [400, 500, 0], [400, 900, 0], [0, 900, 0]], closed: true}
  turned: {stock: tube, path: [[900, 0, 0], [900, 0, 300], [1200, 0, 300], [1200, 300, 300]], ends: free}
""")
    assert leaning_alike(part(piece, "brace"))
    assert not leaning_alike(part(piece, "frame"))
    assert not leaning_alike(part(piece, "post"))
    # Between corners in two planes the mitres lean square to one another: neither.
    assert not leaning_alike(next(m for m in piece.members if m.name == "turned leg 2"))
