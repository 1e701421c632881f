"""Frames with mitred, butted and run-through corners, each from a job file of a few lines; worked out by hand."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable
from math import pi, radians

import numpy as np
import pytest

from fitwright.piece import Member, Piece
from fitwright.piece.model import CutKind, JointKind

Built = Callable[[str], Piece]

STEEL = 7850e-9  # kg/mm3, as in stock


def kinds(piece: Piece) -> Counter[str]:
    return Counter(joint.kind.value for joint in piece.joints)


def lengths(piece: Piece) -> dict[str, float]:
    """Cut length by part, all copies alike."""
    found: dict[str, float] = {}
    for member in piece.members:
        assert member.cut_length == pytest.approx(found.setdefault(member.part, member.cut_length), abs=1e-3)
    return found


def part(piece: Piece, name: str) -> Member:
    return next(member for member in piece.members if member.part == name)


@pytest.mark.parametrize(
    ("stock", "depth"),
    [
        ("round tube 25 x 2 mm", 25),
        ("square tube 40 x 40 x 2", 40),
        ("rect tube 50 x 30 x 2", 50),
        ("flat 40 x 6", 40),
        ("round bar 12", 12),
        ("lumber 2x2 white pine", 38.1),
    ],
)
def test_mitred_frame_drawn_outside(built: Built, stock: str, depth: float) -> None:
    piece = built(f"""
stock: {{frame: {stock}}}
parts:
  frame: {{stock: frame, outside: [[0, 0, 0], [600, 0, 0], [600, 0, 400], [0, 0, 400]], closed: true, corners: mitred}}
""")
    assert [member.cut_length for member in piece.members] == pytest.approx([600, 400, 600, 400])
    assert all(end.kind is CutKind.MITRE for member in piece.members for end in member.ends)
    assert all(end.angle == pytest.approx(radians(45)) for member in piece.members for end in member.ends)
    assert kinds(piece) == {"corner": 4}
    assert [mark.quantity for mark in piece.marks] == [2, 2]
    assert piece.envelope.size == pytest.approx([600, depth, 400])
    # The metal of a mitred frame is that along its centreline.
    section = piece.members[0].stock.section
    around = 2 * (600 + 400) - 4 * (section.extents[3] - section.extents[2])
    assert piece.mass == pytest.approx(section.metal_area * around * piece.members[0].stock.material.density * 1e-9)


@pytest.mark.parametrize("rounded", [300, 300.4])
def test_a_frame_on_a_slant_lies_in_its_own_plane(built: Built, rounded: float) -> None:
    """As one lying flat: 500 by 500 on the middle lines, and half a tube more at each mitre."""
    piece = built(f"""
stock: {{tube: square tube 30 x 30 x 2}}
parts:
  frame:
    stock: tube
    path: [[0, 0, 100], [500, 0, 100], [500, 400, 400], [0, 400, {100 + rounded}]]
    closed: true
""")
    assert [member.cut_length for member in piece.members] == pytest.approx([530] * 4, abs=1)
    assert [end.angle for member in piece.members for end in member.ends] == pytest.approx([radians(45)] * 8, abs=2e-3)


def test_a_flat_tube_that_bends_on_a_slant_lies_in_the_plane_of_its_bends_unless_said(built: Built) -> None:
    piece = built("""
stock: {tube: rectangular tube 60 x 30 x 2}
parts:
  side: {stock: tube, path: [[0, 0, 100], [400, 0, 100], [400, 400, 400]], radius: 120, ends: free}
  said: {stock: tube, path: [[0, 900, 100], [400, 900, 100], [400, 1300, 400]], radius: 120, wide: up, ends: free}
""")
    side, said = piece.members
    # Level as it was, and nearer to lying along the slope of 3 in 4 than to standing square to it.
    assert abs(side.body.frame[0]) == pytest.approx([0, 0.8, 0.6])
    assert said.body.frame[0] == pytest.approx([0, 0, 1])


def test_mitred_angle_frame_with_legs_turned_in(built: Built) -> None:
    piece = built("""
stock: {frame: angle 30 x 30 x 3}
parts:
  frame:
    stock: frame
    path: [[0, 0, 400], [600, 0, 400], [600, 400, 400], [0, 400, 400]]
    closed: true
    corners: mitred
    legs: [back, down]
""")
    assert [member.cut_length for member in piece.members] == pytest.approx([600, 400, 600, 400])
    assert kinds(piece) == {"corner": 4}
    assert piece.envelope.low == pytest.approx([0, 0, 370])
    assert piece.envelope.high == pytest.approx([600, 400, 400])
    # Every leg of the frame turns its flange inward, so the centre lies in the middle.
    assert piece.centre[:2] == pytest.approx([300, 200])


CUBE = """
stock: {frame: square tube 30 x 30 x 2}
parts:
  post: {stock: frame, path: [[15, 15, 15], [15, 15, 385]], mirror: {x: 300, y: 200}}
  long: {stock: frame, path: [[15, 15, 15], [585, 15, 15]], mirror: {y: 200, z: 200}}
  short: {stock: frame, path: [[15, 15, 15], [15, 385, 15]], mirror: {x: 300, z: 200}}
"""


@pytest.mark.parametrize("y", [0, 20])
def test_a_post_drawn_to_the_edge_of_an_angle_s_leg_ends_there(built: Built, y: int) -> None:
    """Most of the post would go on to the other leg, but not past the edge that it is drawn to."""
    piece = built(f"""
stock: {{rail: angle 40 x 40 x 4 mm, post: square tube 40 x 40 x 3 mm}}
parts:
  post: {{stock: post, path: [[0, {y}, 0], [0, {y}, 700]], ends: [free, auto]}}
  rail: {{stock: rail, path: [[-300, 0, 740], [300, 0, 740]], legs: [back, down], ends: free}}
""")
    assert piece.members[0].cut_length == pytest.approx(700)
    assert kinds(piece) == {"tee": 1}


def test_a_post_clear_of_the_upright_leg_goes_on_to_the_level_one(built: Built) -> None:
    piece = built("""
stock: {rail: angle 40 x 40 x 4 mm, post: square tube 30 x 30 x 3 mm}
parts:
  post: {stock: post, path: [[0, 19, 0], [0, 19, 736]], ends: [free, auto]}
  rail: {stock: rail, path: [[-300, 0, 740], [300, 0, 740]], legs: [back, down], ends: free}
""")
    assert piece.members[0].cut_length == pytest.approx(736)


def test_legs_of_an_angle_are_turned_square_to_a_slanted_path(built: Built) -> None:
    piece = built("""
stock: {brace: angle 30 x 30 x 3 mm}
parts:
  brace: {stock: brace, path: [[0, 0, 0], [100, -200, 300]], legs: [right, up], ends: free}
""")
    body = piece.members[0].body
    first, second = body.frame_at(0)[:2]
    along = np.array([100, -200, 300]) / np.sqrt(140000)
    assert [first @ second, first @ along, second @ along] == pytest.approx([0, 0, 0], abs=1e-9)
    # The first leg points right as far as the path lets it, the second up as far as both let it.
    assert first == pytest.approx((np.array([1, 0, 0]) - along[0] * along) / np.sqrt(1 - along[0] ** 2))
    assert second[2] == pytest.approx(np.sqrt(1 - along[2] ** 2 - first[2] ** 2))


def test_cube_frame_three_members_at_each_corner(built: Built) -> None:
    """The level frames are mitred, and the posts stand between them."""
    piece = built(CUBE)
    assert lengths(piece) == pytest.approx({"post": 340, "long": 600, "short": 400})
    assert [end.kind for end in part(piece, "post").ends] == [CutKind.SQUARE] * 2
    assert [end.kind for end in part(piece, "long").ends] == [CutKind.MITRE] * 2
    assert kinds(piece) == {"corner": 24}
    assert [mark.quantity for mark in piece.marks] == [4, 4, 4]
    assert piece.envelope.size == pytest.approx([600, 400, 400])
    area = part(piece, "post").stock.section.metal_area
    assert piece.mass == pytest.approx(4 * (340 + 570 + 370) * area * STEEL)


def test_cube_frame_with_posts_said_to_run_through(built: Built) -> None:
    piece = built(
        CUBE
        + """
joints:
  - {between: [post, long], how: through}
  - {between: [post, short], how: through}
"""
    )
    assert lengths(piece) == pytest.approx({"post": 400, "long": 540, "short": 340})
    assert all(end.kind is CutKind.SQUARE for member in piece.members for end in member.ends)
    assert piece.envelope.size == pytest.approx([600, 400, 400])


@pytest.mark.parametrize("rail", ["40 x 40 x 2", "30 x 30 x 2"])
def test_posts_drawn_through_with_rails_between(built: Built, rail: str) -> None:
    half = int(rail[:2]) // 2
    piece = built(f"""
stock: {{post: square tube 40 x 40 x 2, rail: square tube {rail}}}
parts:
  post: {{stock: post, path: [[20, 20, 0], [20, 20, 700]], mirror: {{x: 300, y: 200}}}}
  long: {{stock: rail, path: [[20, 20, {700 - half}], [580, 20, {700 - half}]], mirror: {{y: 200}}}}
  short: {{stock: rail, path: [[20, 20, {700 - half}], [20, 380, {700 - half}]], mirror: {{x: 300}}}}
  low: {{stock: rail, path: [[20, 20, 150], [20, 380, 150]], mirror: {{x: 300}}}}
  stretcher: {{stock: rail, path: [[20, 200, 150], [580, 200, 150]]}}
""")
    between = {"post": 700, "long": 520, "short": 320, "low": 320, "stretcher": 560 - 2 * half}
    assert lengths(piece) == pytest.approx(between)
    assert kinds(piece) == {"corner": 8, "tee": 6}
    # The short rails, high and low, are one piece of work; so are the long ones and a stretcher of that length.
    assert [mark.quantity for mark in piece.marks] == ([4, 3, 4] if half == 20 else [4, 2, 4, 1])
    assert piece.envelope.size == pytest.approx([600, 400, 700])


def test_timber_frame_is_not_mitred(built: Built) -> None:
    piece = built("""
stock: {leg: lumber 2x2 white pine, rail: lumber 1x4 white pine}
parts:
  leg: {stock: leg, path: [[0, 0, 0], [0, 0, 700]], mirror: {x: 300}}
  top: {stock: leg, path: [[0, 0, 680.95], [600, 0, 680.95]]}
  apron: {stock: rail, path: [[0, 0, 550], [600, 0, 550]], wide: up}
""")
    # 2x2 is dressed to 38.1 mm (PS 20): between the legs 600 - 38.1.
    assert lengths(piece) == pytest.approx({"leg": 700, "top": 561.9, "apron": 561.9})
    assert kinds(piece) == {"corner": 2, "tee": 2}
    assert piece.envelope.size == pytest.approx([638.1, 38.1, 700])


def test_timber_corner_drawn_to_the_centre_butts_against_the_leg(built: Built) -> None:
    piece = built("""
stock: {leg: lumber 2x2 white pine}
parts:
  rail: {stock: leg, path: [[0, 0, 680.95], [600, 0, 680.95]]}
  leg: {stock: leg, path: [[0, 0, 0], [0, 0, 680.95]], mirror: {x: 300}}
""")
    assert lengths(piece) == pytest.approx({"leg": 700, "rail": 561.9})


def test_equal_tubes_are_mitred_and_unequal_ones_are_not(built: Built) -> None:
    piece = built("""
stock: {big: round tube 40 x 2 mm, small: round tube 25 x 2 mm}
parts:
  post: {stock: big, path: [[0, 0, 0], [0, 0, 700]]}
  rail: {stock: small, path: [[0, 0, 700], [500, 0, 700]], ends: [auto, free]}
  other post: {stock: big, path: [[1000, 0, 0], [1000, 0, 700]]}
  other rail: {stock: big, path: [[1000, 0, 700], [1500, 0, 700]], ends: [auto, free]}
""")
    # The larger post runs on until it is flush with the rail's top; the rail is coped to it.
    cope = (20**2 - 12.5**2) ** 0.5
    wanted = {"post": 712.5, "rail": 500 - cope, "other post": 720, "other rail": 520}
    assert lengths(piece) == pytest.approx(wanted, abs=1e-4)
    assert part(piece, "rail").ends[0].kind is CutKind.COPE
    assert part(piece, "other post").ends[1].kind is CutKind.MITRE
    assert kinds(piece) == {"corner": 2}
    area = pi / 4 * (40**2 - 36**2)
    assert part(piece, "other post").mass == pytest.approx(area * 700 * STEEL)


def test_rails_that_end_in_one_post_are_not_joined_to_each_other(built: Built) -> None:
    piece = built("""
stock: {post: square tube 40 x 40 x 2, rail: square tube 30 x 30 x 2}
parts:
  post: {stock: post, path: [[0, 0, 0], [0, 0, 700]], ends: free}
  rail:
    stock: rail
    path: [[0, 0, 400], [500, 0, 400]]
    ends: [auto, free]
    repeat: {around: {centre: [0, 0], count: 4}}
""")
    assert kinds(piece) == {"tee": 4}
    assert lengths(piece)["rail"] == pytest.approx(480)
    assert all(joint.second == 0 for joint in piece.joints)


def test_a_post_carries_on_at_a_joint_in_line(built: Built) -> None:
    piece = built("""
stock: {post: square tube 40 x 40 x 2, bung: square tube 35 x 35 x 2}
parts:
  low: {stock: post, path: [[0, 0, 0], [0, 0, 400]]}
  high: {stock: post, path: [[0, 0, 400], [0, 0, 700]], ends: [auto, free]}
joints: [{between: [low, high], how: butt, sleeve: bung}]
""")
    assert kinds(piece) == {"butt": 1}
    assert piece.joints[0].kind is JointKind.BUTT
    # Unsaid, a sleeve is three widths long.
    assert lengths(piece) == pytest.approx({"low": 400, "high": 300, "low sleeve": 120})


@pytest.mark.parametrize("spread", [20, 60, 150])
def test_two_braces_on_one_chord_are_mitred_only_where_they_overlap(built: Built, spread: float) -> None:
    """Coped to the chord, two braces of 25 at 45 degrees overlap above it only when their axes cross in or near it."""
    piece = built(f"""
stock: {{chord: round tube 40 x 2 mm, brace: round tube 25 x 2 mm}}
parts:
  chord: {{stock: chord, path: [[-400, 0, 0], [400, 0, 0]], ends: free}}
  left: {{stock: brace, path: [[{20 - spread / 2}, 0, 0], [{-280 - spread / 2}, 0, 300]], ends: [auto, free]}}
  right: {{stock: brace, path: [[{spread / 2 - 20}, 0, 0], [{280 + spread / 2}, 0, 300]], ends: [auto, free]}}
""")
    overlap = spread == 20
    assert kinds(piece) == ({"tee": 2, "corner": 1} if overlap else {"tee": 2})
    assert [end.kind for end in part(piece, "left").ends] == [CutKind.COPE, CutKind.SQUARE]


def test_a_post_drawn_to_the_top_of_a_rail_runs_through_though_it_is_to_be_square(built: Built) -> None:
    """By hand: the post is as long as drawn, 400; the rail runs 800 between middles less half a post at either end."""
    piece = built("""
stock: {post: board 90 x 90 oak, rail: board 40 x 90 oak}
parts:
  leg: {stock: post, path: [[100, 45, 0], [100, 45, 400]], ends: square, mirror: {x: 500}}
  rail: {stock: rail, path: [[100, 45, 355], [900, 45, 355]], wide: up}
""")
    lengths = {member.part: member.cut_length for member in piece.members}
    assert lengths == pytest.approx({"leg": 400.0, "rail": 710.0})
