"""How pieces stand: walls, feet, casters, decks and tops, openings; each from a job file of a few lines."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable
from math import atan, cos, degrees, hypot, pi, sqrt, tan

import numpy as np
import pytest

from fitwright.piece import Member, Piece
from fitwright.piece.model import CutKind

Built = Callable[[str], Piece]

STEEL = 7850e-9  # kg/mm3, as in stock


def kinds(piece: Piece) -> Counter[str]:
    return Counter(joint.kind.value for joint in piece.joints)


def part(piece: Piece, name: str) -> Member:
    return next(member for member in piece.members if member.part == name)


def test_shelf_fixed_to_a_wall(built: Built) -> None:
    piece = built("""
stock: {arm: square tube 30 x 30 x 2, plate: plate 6, board: board 20 x 185 pine}
space: {walls: {back: 300}}
parts:
  plate: {sheet: plate, from: [-30, 300, 900], to: [30, 300, 1060], grows: front, mirror: {x: 400}, fastened: bolted}
  arm: {stock: arm, path: [[0, 0, 985], [0, 300, 985]], ends: {start: free}, mirror: {x: 400}}
  shelf: {solid: board, from: [-40, 0, 1000], to: [840, 185, 1000]}
  anchor: {anchor: M8 x 80, at: [[0, 294, 920], [0, 294, 1040]], mirror: {x: 400}}
""")
    # From the front at 0 to the plate's face, 6 off the wall.
    assert part(piece, "arm").cut_length == pytest.approx(294)
    plate, shelf = piece.panels[0], piece.panels[2]
    assert plate.mass == pytest.approx(60 * 160 * 6 * STEEL)
    assert plate.low[1] == pytest.approx(294)
    assert plate.high[1] == pytest.approx(300)
    assert shelf.rests_on == (0, 1)
    assert len(piece.hardware) == 4
    assert piece.envelope.high[1] == pytest.approx(300)


def test_bare_arms_end_on_the_wall(built: Built) -> None:
    piece = built("""
stock: {arm: round tube 25 x 2 mm}
space: {walls: {left: 0, back: 300}}
parts:
  arm: {stock: arm, path: [[100, 0, 900], [100, 300, 900]], ends: {start: free}}
  slanted: {stock: arm, path: [[200, 300, 700], [200, 0, 800]], ends: {finish: free}}
  side: {stock: arm, path: [[0, 100, 900], [87.5, 100, 900]]}
""")
    assert part(piece, "arm").cut_length == pytest.approx(300)
    assert part(piece, "slanted").cut_length == pytest.approx(hypot(300, 100) + 12.5 / 3)
    assert degrees(part(piece, "slanted").ends[0].angle) == pytest.approx(degrees(atan(1 / 3)))
    assert kinds(piece) == {"tee": 1}
    assert piece.envelope.high[1] == pytest.approx(300)


def test_ladder_shelf_leaning_on_a_wall(built: Built) -> None:
    piece = built("""
stock: {rail: square tube 30 x 30 x 2, rung: flat 30 x 5, shelf: plywood 12 birch}
space: {walls: {back: 400}}
parts:
  rail: {stock: rail, path: [[0, 0, 0], [0, 400, 1800]], mirror: {x: 250}}
  rung: {stock: rung, path: [[0, 100, 450], [500, 100, 450]], wide: back}
  shelf: {sheet: shelf, from: [20, 20, 452.5], to: [480, 180, 452.5]}
""")
    rail, lean = part(piece, "rail"), atan(400 / 1800)
    # Cut level on the floor and plumb on the wall, half a slanted section more at either end.
    assert [degrees(end.angle) for end in rail.ends] == pytest.approx([degrees(lean), 90 - degrees(lean)])
    assert rail.cut_length == pytest.approx(hypot(400, 1800) + 15 * tan(lean) + 15 / tan(lean), abs=0.02)
    assert part(piece, "rung").cut_length == pytest.approx(470)
    assert piece.envelope.low[2] == pytest.approx(0)
    assert piece.envelope.high[1] == pytest.approx(400)
    # The rounded corner of the tube stands on the floor a little behind the sharp one.
    assert -15 / cos(lean) <= piece.envelope.low[1] <= -15 / cos(lean) + 0.5


def test_rungs_of_a_leaning_ladder_are_one_part(built: Built) -> None:
    piece = built("""
stock: {stile: rectangular tube 50 x 25 x 2 mm, rung: round bar 16}
space: {walls: {back: 500}}
parts:
  stile: {stock: stile, path: [[0, 50, 0], [0, 500, 1800]], wide: back, repeat: {x: [0, 450]}}
  rung: {stock: rung, path: [[0, 100, 200], [450, 100, 200]], repeat: {slanted: {every: [0, 75, 300], count: 5}}}
""")
    rungs = [member for member in piece.members if member.part == "rung"]
    assert [rung.path.start[1:].tolist() for rung in rungs] == [[100 + 75 * k, 200 + 300 * k] for k in range(5)]
    assert {round(rung.cut_length, 6) for rung in rungs} == {425.0}
    assert kinds(piece) == {"tee": 10}


def test_piece_on_three_feet(built: Built) -> None:
    piece = built("""
stock: {leg: round tube 22 x 2 mm, hub: round tube 60 x 3 mm, top: plywood 18 birch}
parts:
  hub: {stock: hub, path: [[0, 0, 100], [0, 0, 400]], ends: {start: free}}
  arm:
    stock: leg
    path: [[0, 0, 130], [250, 0, 130], [250, 0, 15]]
    radius: 60
    repeat: {around: {centre: [0, 0], count: 3}}
  foot:
    foot: {height: 15, diameter: 30}
    at: [250, 0, 15]
    mass: 50 g
    repeat: {around: {centre: [0, 0], count: 3}}
  top: {sheet: top, from: [-200, -200, 400], to: [200, 200, 400]}
""")
    arm = part(piece, "arm")
    # 250 - 60 and 115 - 60 straight, a quarter bend, less what the cope takes at its longest.
    assert arm.cut_length == pytest.approx(190 + 55 + 30 * pi - sqrt(30**2 - 11**2), abs=1e-4)
    assert [mark.quantity for mark in piece.marks] == [1, 3, 1, 3]
    assert kinds(piece) == {"tee": 3}
    assert piece.centre[:2] == pytest.approx([0, 0], abs=1e-9)
    assert piece.envelope.size == pytest.approx([465, 2 * (250 * sqrt(3) / 2 + 15), 418])


def test_sheet_decks_and_plates_under_posts(built: Built) -> None:
    piece = built("""
stock: {post: square tube 30 x 30 x 2, plate: plate 6, deck: sheet 1.5 mm, ply: plywood 12 birch}
parts:
  foot: {sheet: plate, from: [-10, -10, 0], to: [40, 40, 0], fastened: welded, mirror: {x: 300, y: 200}}
  post: {stock: post, path: [[15, 15, 0], [15, 15, 500]], ends: {finish: free}, mirror: {x: 300, y: 200}}
  side: {stock: post, path: [[15, 15, 200], [15, 385, 200]], mirror: {x: 300}}
  front: {stock: post, path: [[15, 15, 200], [585, 15, 200]], mirror: {y: 200}}
  deck: {sheet: deck, from: [30, 5, 215], to: [570, 395, 215], fastened: welded}
  top: {sheet: ply, from: [0, 0, 500], to: [600, 400, 500], fastened: screwed}
""")
    # Drawn to the floor, the posts stand on the plates.
    assert part(piece, "post").cut_length == pytest.approx(494)
    deck, top = piece.panels[4], piece.panels[5]
    assert deck.mass == pytest.approx(540 * 390 * 1.5 * STEEL)
    # Cut between the side rails to clear the posts, the deck lies on the front and back rails alone.
    assert {piece.members[k].part for k in deck.rests_on} == {"front"}
    assert {piece.members[k].part for k in top.rests_on} == {"post"}
    assert piece.envelope.low == pytest.approx([-10, -10, 0])
    assert piece.envelope.high == pytest.approx([610, 410, 512])
    feet = next(mark for mark in piece.marks if mark.names[0].startswith("foot"))
    assert feet.quantity == 4


def test_solid_top_on_a_mitred_frame_with_levelling_feet(built: Built) -> None:
    piece = built("""
stock: {frame: square tube 40 x 40 x 2, top: board 40 x 150 oak}
parts:
  frame:
    stock: frame
    outside: [[0, 0, 800], [1200, 0, 800], [1200, 600, 800], [0, 600, 800]]
    closed: true
    follows: up
  leg: {stock: frame, path: [[20, 20, 25], [20, 20, 800]], mirror: {x: 600, y: 300}}
  foot: {foot: {height: 25, diameter: 40}, at: [20, 20, 25], mirror: {x: 600, y: 300}}
  top: {solid: top, from: [-20, -20, 800], to: [1220, 620, 800]}
""")
    # The frame hangs below the top, and the legs, drawn up to the top, come up under its mitred corners.
    assert part(piece, "leg").cut_length == pytest.approx(735)
    assert part(piece, "leg").ends[1].kind is CutKind.SQUARE
    assert kinds(piece) == {"corner": 12}
    boards = piece.panels[0].boards
    # 640 across takes five boards of 128 from stock of 150.
    assert len(boards) == 5
    assert all((board.length, board.width, board.thickness) == pytest.approx((1240, 128, 40)) for board in boards)
    assert piece.panels[0].mass == pytest.approx(1240 * 640 * 40 * piece.panels[0].stock.material.density * 1e-9)
    assert piece.envelope.low == pytest.approx([-20, -20, 0])
    assert piece.envelope.high == pytest.approx([1220, 620, 840])
    assert {piece.members[k].part for k in piece.panels[0].rests_on} == {"frame"}


WHEELED = """
stock:
  frame: square tube 30 x 30 x 2
  tube: round tube 25 x 2 mm
  slat: board 12 x 60 pine
  batten: board 20 x 40 pine
parts:
  base:
    stock: frame
    outside: [[0, 0, 100], [600, 0, 100], [600, 400, 100], [0, 400, 100]]
    closed: true
    follows: down
  caster:
    caster: {wheel: 75, width: 25, height: 100, lead: 30, rated: 60 kg}
    at: [40, 40, 100]
    mass: 0.6 kg
    mirror: {x: 300, y: 200}
  post: {stock: frame, path: [[15, 200, 130], [15, 200, 1500]], ends: {finish: free}, mirror: {x: 300}}
  rail: {stock: tube, path: [[15, 200, 1470], [585, 200, 1470]]}
  shelf:
    slats: slat
    from: [2, 2, 150]
    to: [598, 182, 150]
    gap: 10
    battens: {stock: batten, inset: 50, count: 2}
    removable: front
  bin: {opening: {from: [100, 20, 165], to: [400, 170, 500]}}
  reach: {opening: {from: [100, 150, 1400], to: [400, 250, 1500]}}
  screw: {screw: 4 x 40, count: 12, mass: 5 g}
"""


def test_hanging_rail_on_casters_with_a_removable_shelf(built: Built) -> None:
    piece = built(WHEELED)
    assert part(piece, "rail").cut_length == pytest.approx(540)
    assert part(piece, "post").cut_length == pytest.approx(1370)
    assert kinds(piece) == {"corner": 4, "tee": 4}
    # A swivelled wheel reaches hypot(30 + 37.5, 12.5) from its axis, 40 inside the corner.
    reach = hypot(67.5, 12.5)
    assert piece.envelope.swept_low[:2] == pytest.approx([40 - reach, 40 - reach])
    assert piece.envelope.size == pytest.approx([520 + 2 * reach, 320 + 2 * reach, 1500])
    assert piece.envelope.low[2] == pytest.approx(0)
    # Taken out to the front, a shelf 180 deep needs 180 more in front of itself.
    assert piece.envelope.removal_low[1] == pytest.approx(2 - 180)
    shelf = piece.panels[0]
    # Three boards of 60 fill 180 with no gap to speak of; four do not fit.
    assert [board.role for board in shelf.boards] == ["slat"] * 3 + ["batten"] * 2
    assert shelf.gap == pytest.approx(0)
    assert [board.low[0] for board in shelf.boards[3:]] == pytest.approx([52, 508])
    assert shelf.low[2] == pytest.approx(130)


def test_openings_tell_what_stands_in_them(built: Built) -> None:
    piece = built(WHEELED)
    clear, reach = piece.openings
    assert clear.intruders == ()
    # The rail, 25 across, lies in the middle of a box 100 deep.
    assert reach.intruders[0][0] == "rail"
    assert reach.intruders[0][1] == pytest.approx(42.5, abs=0.2)


def test_masses_add_up_and_counted_hardware_weighs_without_a_place(built: Built) -> None:
    piece = built(WHEELED)
    members = sum(member.mass for member in piece.members)
    assert piece.mass == pytest.approx(members + piece.panels[0].mass + 4 * 0.6 + 12 * 0.005)
    screw = piece.hardware[-1]
    assert (screw.placed, screw.each) == (False, 12)
    assert piece.centre[0] == pytest.approx(300)
    assert np.all(piece.envelope.low > -5)


def test_pipe_weighs_by_its_nominal_wall(built: Built) -> None:
    """AISC Manual, Table 1-14: pipe 1-1/4 Std weighs 2.27 lb/ft, though it is as strong as a thinner wall."""
    piece = built("""
job: {name: pipe, unit: inch}
stock: {post: pipe 1 1/4 sch 40}
parts:
  post: {stock: post, path: [[0, 0, 0], [0, 0, 12]], ends: free}
""")
    assert piece.mass / 0.45359237 == pytest.approx(2.27, rel=0.005)


def test_counts_alone_do_not_move_the_envelope(built: Built) -> None:
    piece = built("""
stock: {post: round bar 20}
parts:
  post: {stock: post, path: [[900, 900, 0], [900, 900, 300]], ends: free}
  glue: {fitting: glue, mass: 200 g}
""")
    assert piece.envelope.low == pytest.approx([890, 890, 0])
    assert piece.centre == pytest.approx([900, 900, 150])
