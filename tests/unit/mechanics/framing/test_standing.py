from __future__ import annotations

import numpy as np
import pytest

from fitwright.job import parse_job
from fitwright.mechanics import factorise, on_feet
from fitwright.mechanics.framing import NotFramed, floor_feet, framed, holding
from fitwright.piece import build
from tests.unit.mechanics.framing.pieces import TABLE, frame, made

CASTERS = """
  leg: {stock: frame, path: [[20, 20, 60], [20, 20, 700]], ends: free, mirror: {x: 400, y: 200}}
  rail: {stock: frame, path: [[20, 20, 600], [20, 380, 600]], mirror: {x: 400}}
  long: {stock: frame, path: [[20, 20, 600], [780, 20, 600]], mirror: {y: 200}}
  wheel: {caster: {label: wheel, wheel: 50, width: 20, height: 60, swivel: true, brake: BRAKE}, at: [20, 20, 60],
    mirror: {x: 400, y: 200}}
"""


def test_ends_on_the_floor_are_feet_that_grip() -> None:
    table = frame(TABLE)
    assert len(table.feet) == 4
    assert {foot.kind for foot in table.feet} == {"end"}
    assert all(foot.grips for foot in table.feet)
    assert table.model.nodes[[foot.node for foot in table.feet], 2] == pytest.approx([0] * 4)


def test_a_caster_touches_the_floor_below_its_stem() -> None:
    rack = frame(CASTERS.replace("BRAKE", "true"))
    assert [foot.kind for foot in rack.feet] == ["caster"] * 4
    assert rack.model.nodes[[foot.node for foot in rack.feet], 2] == pytest.approx([0] * 4)
    assert all(foot.grips for foot in rack.feet)


def test_free_wheels_do_not_grip_and_get_three_restraints() -> None:
    rack = frame(CASTERS.replace("BRAKE", "false"))
    assert not any(foot.grips for foot in rack.feet)
    assert holding(rack, stick=False).held[:, :2].sum() == 3
    assert not floor_feet(rack, stick=True).stick.any()
    assert holding(rack, stick=True).held[:, :2].sum() == 8


def test_gripping_feet_hold_themselves() -> None:
    table = frame(TABLE)
    assert floor_feet(table, stick=True).stick.all()
    assert not floor_feet(table, stick=False).stick.any()
    assert holding(table, stick=True).held.sum() == 0


def test_the_end_of_a_member_on_a_wall_is_clamped_or_hinged() -> None:
    arms = "  arm: {stock: frame, path: [[20, 0, 600], [20, 400, 600]], ends: {start: free, finish: auto}BOLT}"
    walls = "walls: {back: 400}"
    assert list(frame(arms.replace("BOLT", ""), space=walls).held.values()) == ["fixed"]
    assert list(frame(arms.replace("BOLT", ", fastened: bolted"), space=walls).held.values()) == ["ux uy uz"]


ARM = """
  post: {stock: frame, path: [[20, 380, 1000], [20, 380, 1400]], ends: free}
  arm: {stock: frame, path: [[20, 0, 1200], [20, 380, 1200]], ends: {start: free, finish: auto}}
  anchor: {anchor: {size: M8 x 60}, at: AT}
"""


@pytest.mark.parametrize(
    ("at", "held"),
    [
        ("[[20, 400, 1050], [20, 400, 1350]]", ["ux uy uz rz"] * 2),
        ("[20, 400, 1350]", ["fixed"]),
        ("[[0, 400, 1050], [40, 400, 1050], [20, 400, 1350]]", ["ux uy uz rz"] * 2),
    ],
)
def test_anchors_in_one_line_hold_against_turning_about_it(at: str, held: list[str]) -> None:
    bracket = frame(ARM.replace("AT", at))
    assert list(bracket.held.values()) == held
    factorise(bracket.model, holding(bracket, stick=False))


def test_anchors_that_are_in_no_line_let_turn() -> None:
    plate = "  strip: {stock: frame, path: [[-100, 380, 980], [140, 380, 980]], ends: free}\n"
    at = "[[-80, 400, 980], [120, 400, 980], [20, 400, 1350]]"
    assert list(frame(ARM.replace("AT", at) + plate).held.values()) == ["ux uy uz"] * 3


LEANING = """
  leg: {stock: frame, path: [[20, 20, 0], [20, 480, 1600]], ends: {start: level, finish: free}, mirror: {x: 300}}
  rung: {stock: frame, path: [[20, 250, 800], [580, 250, 800]]}
"""


def test_a_leaning_piece_is_kept_by_the_wall_and_by_its_feet() -> None:
    ladder = frame(LEANING, space="walls: {back: 500}")
    assert list(ladder.held.values()) == ["uy", "uy"]
    assert ladder.model.nodes[list(ladder.held), 2] == pytest.approx([1600] * 2)
    for stick in (False, True):
        feet = floor_feet(ladder, stick=stick)
        factorise(ladder.model, on_feet(ladder.model, holding(ladder, stick=stick), feet))


def test_a_piece_that_stands_by_itself_is_not_kept_by_the_wall_behind_it() -> None:
    assert not frame(TABLE, space="walls: {back: 400}").held


def test_a_runner_on_the_floor_stands_where_it_leaves_it() -> None:
    side = "  side: {stock: tube, path: [[16, 20, 16], [16, 380, 16], [16, 380, 430], [16, 20, 430]], radius: 80, "
    sled = frame(side + "closed: true}")
    at = sled.model.nodes[[foot.node for foot in sled.feet]]
    assert sorted(at[:, 1]) == pytest.approx([100, 300])
    assert at[:, 2] == pytest.approx([0, 0])


def test_a_piece_in_the_air_floats() -> None:
    with pytest.raises(NotFramed, match="the piece floats"):
        frame("  bar: {stock: frame, path: [[0, 0, 500], [600, 0, 500]], ends: free}")


def test_a_caster_beside_the_frame_is_named() -> None:
    with pytest.raises(NotFramed, match=r"wheel 1 is fixed to no member: put it on one; the nearest, leg 1"):
        frame(CASTERS.replace("BRAKE", "true").replace("at: [20, 20, 60]", "at: [70, 20, 60]"))


def test_two_feet_on_one_node_are_both_there() -> None:
    text = """
job: {name: t, unit: mm}
stock: {frame: square tube 40 x 40 x 2}
parts:
  post: {stock: frame, path: [[0, 0, 30], [0, 0, 600]], ends: free}
  foot: {foot: {label: f, height: 30, diameter: 10}, at: [-15, 0, 30], mirror: {x: 0}}
"""
    job = parse_job(text)
    post = framed(build(job), job)
    assert len(post.feet) == 2
    assert len({foot.node for foot in post.feet}) == 2
    assert np.sort(post.model.nodes[[f.node for f in post.feet], 0]) == pytest.approx([-15, 15])
    assert len(post.model.links) == 1


def test_no_members_is_no_frame() -> None:
    job, piece = made("  top: {sheet: sheet, from: [0, 0, 0], to: [800, 400, 0]}")
    with pytest.raises(NotFramed, match="no members"):
        framed(piece, job)


def test_a_caster_under_a_board_stands_under_the_nearest_member() -> None:
    text = """
job: {name: t, unit: mm}
stock: {frame: square tube 40 x 40 x 2, board: plywood 18 mm birch}
parts:
  rim: {stock: frame, outside: [[0, 0, 98], [800, 0, 98], [800, 400, 98], [0, 400, 98]], closed: true, corners: mitred}
  deck: {sheet: board, from: [0, 0, 60], to: [800, 400, 60], fastened: screwed}
  wheel: {caster: {wheel: 50, width: 20, height: 60, swivel: true}, at: [80, 80, 60], mirror: {x: 400, y: 200}}
"""
    job = parse_job(text)
    cart = framed(build(job), job)
    at = cart.model.nodes[[foot.node for foot in cart.feet]]
    assert sorted(at[:, 0]) == pytest.approx([80, 80, 720, 720])
    assert at[:, 2] == pytest.approx([0] * 4)
