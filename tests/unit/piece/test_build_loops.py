"""Closed loops, rings and bent members, each from a job file of a few lines; numbers worked out by hand."""

from __future__ import annotations

from collections.abc import Callable
from math import pi

import numpy as np
import pytest

from fitwright.piece import Piece
from fitwright.piece.model import CutKind, JointKind

Built = Callable[[str], Piece]

STEEL = 7850e-9  # kg/mm3, as in stock
TUBE_25 = pi / 4 * (25**2 - 21**2)  # mm2


def test_closed_loop_with_a_sleeved_butt(built: Built) -> None:
    piece = built("""
stock: {frame: round tube 25 x 2 mm, bung: round tube 20 x 2 mm}
parts:
  loop:
    stock: frame
    path: [[0, 0, 300], [600, 0, 300], [600, 400, 300], [0, 400, 300]]
    closed: true
    radius: 75
    butt: {sleeve: bung, length: 80}
""")
    loop, sleeve = piece.members
    # Straights 2 x 450 and 2 x 250, four quarter bends of radius 75.
    length = 2 * 450 + 2 * 250 + 4 * pi / 2 * 75
    assert loop.cut_length == pytest.approx(length, abs=1e-9)
    assert loop.mass == pytest.approx(TUBE_25 * length * STEEL, rel=1e-9)
    assert sleeve.sleeve_of == 0
    assert sleeve.cut_length == pytest.approx(80)
    assert [(j.kind, j.first, j.second, j.sleeve) for j in piece.joints] == [(JointKind.BUTT, 0, 0, 1)]
    assert piece.joints[0].point == pytest.approx([300, 0, 300])
    assert piece.envelope.low == pytest.approx([-12.5, -12.5, 287.5])
    assert piece.envelope.high == pytest.approx([612.5, 412.5, 312.5])


def test_two_us_joined_by_two_sleeved_butts(built: Built) -> None:
    piece = built("""
stock: {frame: round tube 25 x 2 mm, bung: round tube 20 x 2 mm}
parts:
  u: {stock: frame, path: [[0, 0, 300], [-300, 0, 300], [-300, 400, 300], [0, 400, 300]], radius: 75, mirror: {x: 0}}
joints:
  - {between: [u, u], how: butt, sleeve: bung, length: 80}
""")
    butts = [joint for joint in piece.joints if joint.kind is JointKind.BUTT]
    assert len(piece.joints) == len(butts) == 2
    assert {joint.sleeve for joint in butts} == {2, 3}
    assert [m.name for m in piece.members] == ["u 1", "u 2", "u 1 sleeve", "u 1 sleeve 2"]
    for joint in butts:
        assert joint.sleeve is not None
        assert piece.members[joint.sleeve].centre == pytest.approx(joint.point, abs=1e-6)
    # A plane U is its own mirror image turned over: one mark, not a mirrored pair.
    assert [(mark.names[0], mark.quantity, mark.mirror_of) for mark in piece.marks] == [
        ("u 1", 2, None),
        ("u 1 sleeve", 2, None),
    ]
    assert piece.members[0].cut_length == pytest.approx(2 * 225 + 250 + 2 * pi / 2 * 75)


def test_ring_on_three_legs(built: Built) -> None:
    piece = built("""
stock: {tube: round tube 25 x 2 mm, leg: round tube 20 x 2 mm}
parts:
  ring: {stock: tube, ring: {centre: [0, 0, 450], diameter: 400}}
  leg: {stock: leg, path: [[200, 0, 0], [200, 0, 450]], repeat: {around: {centre: [0, 0], count: 3}}}
""")
    ring, leg = piece.members[0], piece.members[1]
    assert ring.cut_length == pytest.approx(400 * pi)
    assert ring.mass == pytest.approx(TUBE_25 * 400 * pi * STEEL)
    # Square to the ring the leg's outline, 10 from its axis, meets the round of 12.5 at 7.5 below the ring's axis.
    assert leg.ends[1].kind is CutKind.COPE
    assert leg.cut_length == pytest.approx(450 - np.sqrt(12.5**2 - 10**2), abs=1e-3)
    # In the ring's plane the outline lies 10 nearer to its centre: the tube there is 12.5 high beside its crown.
    assert leg.ends[1].shortest == pytest.approx(-12.5, abs=1e-3)
    assert sorted(joint.kind for joint in piece.joints) == [JointKind.BUTT, *[JointKind.TEE] * 3]
    assert [mark.quantity for mark in piece.marks] == [1, 3]
    assert piece.envelope.size == pytest.approx([425, 425, 462.5])
    assert piece.centre[:2] == pytest.approx([0, 0], abs=1e-6)


def test_bends_out_of_one_plane_and_compound(built: Built) -> None:
    piece = built("""
stock: {tube: round tube 25 x 2 mm}
parts:
  square: {stock: tube, path: [[0, 0, 100], [300, 0, 100], [300, 400, 100], [300, 400, 350]], radius: 75, ends: free}
  skew:
    stock: tube
    path: [[1000, 0, 100], [1200, 0, 100], [1350, 200, 100], [1350, 450, 400], [1100, 450, 600]]
    radius: 60
    ends: free
""")
    # Handbook cases 02-02 and 02-05: straights 225, 250, 175 and two quarter bends; compound bends.
    assert [m.cut_length for m in piece.members] == pytest.approx([885.619, 1143.2097], abs=1e-3)
    assert [m.mass for m in piece.members] == pytest.approx(
        [TUBE_25 * STEEL * 885.619, TUBE_25 * STEEL * 1143.2097], rel=1e-5
    )
    assert piece.envelope.low == pytest.approx([0, -12.5, 87.5])
    assert piece.envelope.high[0] == pytest.approx(1362.5)


def test_mirrored_pair_is_said_to_be_mirrored(built: Built) -> None:
    piece = built("""
stock: {tube: round tube 25 x 2 mm}
parts:
  arm:
    stock: tube
    path: [[100, 0, 0], [100, 0, 400], [300, 0, 400], [300, 250, 400]]
    radius: 60
    ends: free
    mirror: {x: 0}
""")
    assert [(mark.mark, mark.quantity, mark.mirror_of) for mark in piece.marks] == [("A1", 1, None), ("A2", 1, "A1")]


def test_outside_path_gives_overall_sizes(built: Built) -> None:
    piece = built("""
job: {name: hoop, unit: inch}
stock: {frame: round tube 1 1/8 x 14 ga}
parts:
  hoop:
    stock: frame
    outside: [[0, 0, 0], [0, 0, 74], [31 1/2, 0, 74], [31 1/2, 0, 0]]
    radius: 4
    repeat: {y: [0, 19]}
""")
    assert piece.envelope.size / 25.4 == pytest.approx([31.5, 19, 74])
    # Centreline 9/16 inside: legs 73 7/16 - 4, top 30 3/8 - 8, two quarter bends of 4.
    assert piece.members[0].cut_length / 25.4 == pytest.approx(2 * 69.4375 + 22.375 + 4 * pi)
    assert piece.members[1].path.start / 25.4 == pytest.approx([0.5625, 18.4375, 0])
