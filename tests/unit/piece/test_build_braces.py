"""Braces, crossings, laps and splayed legs, each from a job file of a few lines; numbers worked out by hand."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable
from math import atan, cos, degrees, hypot, radians, sqrt, tan

import pytest

from fitwright.piece import Member, Piece
from fitwright.piece.model import CutKind

Built = Callable[[str], Piece]


def kinds(piece: Piece) -> Counter[str]:
    return Counter(joint.kind.value for joint in piece.joints)


def part(piece: Piece, name: str) -> Member:
    return next(member for member in piece.members if member.part == name)


def test_flats_and_bars_as_braces_to_flat_and_round(built: Built) -> None:
    piece = built("""
stock: {post: square tube 40 x 40 x 2, pole: round tube 40 x 2 mm, flat: flat 30 x 5, bar: round bar 12}
parts:
  post: {stock: post, path: [[0, 0, 0], [0, 0, 800]], ends: {finish: free}}
  pole: {stock: pole, path: [[600, 0, 0], [600, 0, 800]], ends: {finish: free}}
  flat: {stock: flat, path: [[0, 0, 200], [600, 0, 500]], wide: back}
  upright flat: {stock: flat, path: [[0, 0, 100], [600, 0, 400]], wide: up}
  bar: {stock: bar, path: [[0, 0, 700], [600, 0, 600]]}
  tube: {stock: pole, path: [[0, 0, 60], [600, 0, 60]]}
""")
    lean = atan(0.5)
    # Between faces at 20 and 580 (flat) and 580 (tangent to the round): 560 along x; the two cuts are parallel.
    assert part(piece, "flat").cut_length == pytest.approx(560 / cos(lean) + 5 * tan(lean))
    assert part(piece, "upright flat").cut_length == pytest.approx(560 / cos(lean) + 30 * tan(lean))
    assert [end.angle for end in part(piece, "flat").ends] == pytest.approx([lean, lean])
    slope = atan(1 / 6)
    assert part(piece, "bar").cut_length == pytest.approx(560 / cos(slope) + 12 * tan(slope))
    assert [end.kind for end in part(piece, "bar").ends] == [CutKind.MITRE, CutKind.MITRE]
    # A tube as wide as the pole is coped to it: its outline reaches the pole's axis plane.
    assert [end.kind for end in part(piece, "tube").ends] == [CutKind.SQUARE, CutKind.COPE]
    assert part(piece, "tube").cut_length == pytest.approx(580)
    assert kinds(piece) == {"tee": 8}


def test_a_bar_beside_the_axis_of_a_pole_stops_where_it_meets_it(built: Built) -> None:
    piece = built("""
stock: {pole: round tube 40 x 2 mm, bar: square bar 10}
parts:
  pole: {stock: pole, path: [[0, 0, 0], [0, 0, 800]], ends: {finish: free}}
  bar: {stock: bar, path: [[0, 12, 400], [300, 12, 400]], ends: [auto, free]}
""")
    # Its near side runs 7 beside the axis: the round is sqrt(20 x 20 - 7 x 7) out there.
    assert part(piece, "bar").cut_length == pytest.approx(300 - sqrt(20**2 - 7**2))


def test_brace_against_the_inside_of_a_bend(built: Built) -> None:
    """A flat that lands on the inside of a bend is cut back until nothing of it runs into the tube."""
    piece = built("""
stock: {tube: round tube 25 x 2 mm, flat: flat 40 x 5}
parts:
  bow: {stock: tube, path: [[0, 0, 0], [0, 0, 400], [400, 0, 400]], radius: 150, ends: [auto, free]}
  flat: {stock: flat, path: [[44, 0, 356], [244, 0, 156]], wide: [1, 0, 1], ends: [auto, free]}
""")
    # The bend's centre is (150, 250) and its inside 137.5 from there; the corners of the flat lie 20 beside the ray.
    inside = 137.5
    along = hypot(244 - 150, 250 - 156)
    assert part(piece, "flat").cut_length == pytest.approx(sqrt(inside**2 - 20**2) + along, abs=0.02)


def test_crossing_rods_are_welded_where_they_touch(built: Built) -> None:
    piece = built("""
stock: {rod: round bar 8}
parts:
  down: {stock: rod, path: [[0, -50, 104], [0, 350, 104]], ends: free, repeat: {x: [0, 100, 200]}}
  across: {stock: rod, path: [[-50, 0, 96], [250, 0, 96]], ends: free, repeat: {y: {every: 100, count: 4}}}
""")
    assert kinds(piece) == {"crossing": 12}
    places = {tuple(joint.point.round(0)[:2]) for joint in piece.joints}
    assert places == {(x, y) for x in (0, 100, 200) for y in (0, 100, 200, 300)}


def test_a_rod_that_crosses_both_legs_of_a_hoop_is_joined_twice(built: Built) -> None:
    piece = built("""
stock: {tube: round tube 25 x 2 mm, rod: round bar 8}
parts:
  hoop: {stock: tube, path: [[0, 0, 0], [0, 0, 500], [400, 0, 500], [400, 0, 0]], radius: 75}
  rod: {stock: rod, path: [[-30, 16.5, 250], [430, 16.5, 250]], ends: free}
""")
    assert kinds(piece) == {"crossing": 2}
    assert sorted(joint.point[0] for joint in piece.joints) == pytest.approx([0, 400], abs=0.5)


def test_laps_of_two_flats(built: Built) -> None:
    piece = built("""
stock: {flat: flat 40 x 5}
parts:
  under: {stock: flat, path: [[0, 0, 2.5], [300, 0, 2.5]], ends: free}
  over: {stock: flat, path: [[260, 0, 7.5], [500, 0, 7.5]], ends: [auto, free]}
  side: {stock: flat, path: [[100, -20, 7.5], [100, 200, 7.5]], ends: [auto, free]}
""")
    assert kinds(piece) == {"lap": 2}
    assert [member.cut_length for member in piece.members] == pytest.approx([300, 240, 220])


def test_legs_splayed_two_ways_are_cut_level(built: Built) -> None:
    piece = built("""
stock: {leg: round tube 25 x 2 mm, top: square tube 30 x 30 x 2}
parts:
  top: {stock: top, path: [[0, 0, 435], [600, 0, 435], [600, 400, 435], [0, 400, 435]], closed: true}
  leg: {stock: leg, path: [[-60, -40, 0], [15, 15, 435]], mirror: {x: 300, y: 200}}
""")
    leg = part(piece, "leg")
    lean = hypot(75, 55) / 435
    # Along the axis from the floor to the frame's underside at 420, and half a slanted round at either end.
    assert leg.cut_length == pytest.approx(420 * sqrt(1 + lean**2) + 25 * lean)
    assert [degrees(end.angle) for end in leg.ends] == pytest.approx([degrees(atan(lean))] * 2)
    # A tube cut level at both ends is its own mirror image: four of one.
    assert [(m.names[0], m.quantity, m.mirror_of) for m in piece.marks][-1] == ("leg 1", 4, None)
    assert piece.envelope.low[2] == pytest.approx(0)
    # On the floor the cut is an ellipse, longer where it leans: half of it reaches hypot(r, r dx/dz) to the left.
    assert piece.envelope.low[0] == pytest.approx(-60 - 12.5 * sqrt(1 + (75 / 435) ** 2))


def test_square_legs_splayed_two_ways_are_one_piece_of_work(built: Built) -> None:
    piece = built("""
stock: {leg: square tube 25 x 25 x 2, top: plywood 18 birch}
parts:
  top: {sheet: top, from: [0, 0, 435], to: [600, 400, 435]}
  leg: {stock: leg, path: [[-60, -40, 0], [100, 80, 435]], mirror: {x: 300, y: 200}}
""")
    # With parallel cuts a leg is carried onto itself by inversion, so its mirror image is the leg turned over.
    assert [(m.quantity, m.mirror_of) for m in piece.marks if m.kind == "member"] == [(4, None)]
    assert all(end.kind is CutKind.MITRE for member in piece.members for end in member.ends)
    assert piece.envelope.low[2] == pytest.approx(0)


def test_struts_cut_level_and_to_a_side_are_a_mirrored_pair(built: Built) -> None:
    piece = built("""
stock: {strut: square tube 25 x 25 x 2, post: square tube 60 x 60 x 3}
parts:
  post: {stock: post, path: [[300, 0, 0], [300, 0, 500]], ends: free}
  strut: {stock: strut, path: [[0, -70, 0], [300, 10, 400]], mirror: {x: 300}}
""")
    assert [(m.quantity, m.mirror_of) for m in piece.marks] == [(1, None), (1, None), (1, "B1")]


def test_ends_wanted_level_plumb_and_square(built: Built) -> None:
    piece = built("""
stock: {bar: square bar 20, pole: round tube 40 x 2 mm}
parts:
  strut: {stock: bar, path: [[0, 0, 100], [300, 0, 400]], wide: back, ends: [level, plumb]}
  pole: {stock: pole, path: [[800, 0, 0], [800, 0, 500]], ends: {finish: free}}
  rung: {stock: pole, path: [[800, 0, 250], [1100, 0, 250]], ends: [square, free]}
""")
    strut = part(piece, "strut")
    assert [degrees(end.angle) for end in strut.ends] == pytest.approx([45, 45])
    assert strut.cut_length == pytest.approx(300 * sqrt(2) + 20)
    # Wanted square, a tube is not coped but stops where it first touches.
    assert part(piece, "rung").ends[0].kind is CutKind.SQUARE
    assert part(piece, "rung").cut_length == pytest.approx(280)
    assert radians(45) == pytest.approx(strut.ends[0].angle)


@pytest.mark.parametrize(
    ("drawn", "why"), [(0, "to the centreline"), (20, "to the near face"), (-20, "to the far face")]
)
def test_an_end_may_be_drawn_anywhere_in_the_part_it_meets(built: Built, drawn: float, why: str) -> None:
    for post, kind in (("square tube 40 x 40 x 2", CutKind.SQUARE), ("round tube 40 x 2 mm", CutKind.COPE)):
        piece = built(f"""
stock: {{post: {post}, rail: round tube 25 x 2 mm}}
parts:
  post: {{stock: post, path: [[0, 0, 0], [0, 0, 700]], ends: {{finish: free}}}}
  rail: {{stock: rail, path: [[{drawn}, 0, 400], [500, 0, 400]], ends: [auto, free]}}
""")
        reach = 20 if kind is CutKind.SQUARE else sqrt(20**2 - 12.5**2)
        assert part(piece, "rail").cut_length == pytest.approx(500 - reach, abs=1e-4), why
        assert part(piece, "rail").ends[0].kind is kind


def test_flattened_ends_are_cut_plain(built: Built) -> None:
    piece = built("""
stock: {pole: round tube 40 x 2 mm, tube: round tube 20 x 2 mm}
parts:
  pole: {stock: pole, path: [[0, 0, 0], [0, 0, 800]], ends: {finish: free}}
  stay: {stock: tube, path: [[0, 0, 400], [300, 0, 400]], ends: flattened}
""")
    stay = part(piece, "stay")
    assert [end.kind for end in stay.ends] == [CutKind.FLATTENED] * 2
    assert stay.cut_length == pytest.approx(280)
    assert kinds(piece) == {"tee": 1}
