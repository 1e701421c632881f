from __future__ import annotations

import numpy as np
import pytest

from fitwright.mechanics import Response, factorise, on_feet, solve
from fitwright.mechanics.framing import Framed, floor_feet, holding
from fitwright.mechanics.framing.loading import (
    Pattern,
    as_loads,
    half,
    mass_pattern,
    nothing,
    payload_patterns,
    push_pattern,
)
from fitwright.mechanics.loads import GRAVITY
from tests.unit.mechanics.framing.pieces import TABLE, frame

RIGHT = np.array([1.0, 0.0, 0.0])


def total(framed: Framed, pattern: Pattern) -> tuple[float, float, float]:
    x, y, z = (pattern.nodal[:, :3].sum(axis=0) + framed.lengths @ pattern.line).tolist()
    return x, y, z


def standing(framed: Framed, pattern: Pattern) -> Response:
    feet = floor_feet(framed, stick=False)
    return solve(
        factorise(framed.model, on_feet(framed.model, holding(framed, stick=False), feet)), as_loads(framed, [pattern])
    )


def shelved() -> Framed:
    ledge = "  ledge: {stock: angle, path: [[20, 20, 300], [20, 380, 300]], legs: [right, down], mirror: {x: 400}}\n"
    return frame(TABLE + ledge + "  shelf: {solid: board, from: [50, 30, 300], to: [750, 370, 300], along: x}\n")


def test_everything_weighs_what_the_piece_weighs() -> None:
    rack = shelved()
    assert total(rack, mass_pattern(rack)) == pytest.approx((0, 0, -rack.piece.mass * GRAVITY))


def test_feet_carry_the_weight_about_its_centre() -> None:
    rack = shelved()
    response = standing(rack, mass_pattern(rack))
    nodes = [foot.node for foot in rack.feet]
    up = response.reactions.reshape(-1, 6)[nodes, 2]
    assert up.sum() == pytest.approx(rack.piece.mass * GRAVITY)
    assert up @ rack.model.nodes[nodes][:, :2] / up.sum() == pytest.approx(rack.piece.centre[:2], abs=1.0)


def test_a_load_on_a_panel_turns_the_angle_under_it() -> None:
    rack = shelved()
    ((payload, pattern),) = payload_patterns(rack, [("shelf", 200.0)])
    assert payload.name == "shelf"
    assert payload.height == pytest.approx(320)
    assert total(rack, pattern)[2] == pytest.approx(-200)
    arm = abs(rack.panels[0].arm[:, 0]).max()
    assert np.abs(pattern.nodal[:, 4]).sum() == pytest.approx(200 * arm)


def test_a_load_on_a_member_lies_on_its_level_straights() -> None:
    hoop = (
        "  hoop: {stock: tube, path: [[0, 0, 0], [0, 0, 500], [400, 0, 500], [400, 0, 0]], radius: 100, ends: free}\n"
    )
    bent = frame(hoop)
    ((payload, pattern),) = payload_patterns(bent, [("hoop", 120.0)])
    loaded = pattern.line[:, 2] < 0
    assert bent.lengths[loaded].sum() == pytest.approx(200)
    assert (bent.slope[loaded] < 0.01).all()
    assert total(bent, pattern)[2] == pytest.approx(-120)
    assert payload.height == pytest.approx(500)


def test_legs_of_one_mitred_part_share_one_load() -> None:
    top = (
        "  top: {stock: frame, outside: [[0, 0, 680], [800, 0, 680], [800, 400, 680], [0, 400, 680]], closed: true, "
        "corners: mitred}"
    )
    table = frame(top + "\n  leg: {stock: frame, path: [[20, 20, 0], [20, 20, 660]], mirror: {x: 400, y: 200}}\n")
    ((payload, pattern),) = payload_patterns(table, [("top", 400.0)])
    assert payload.name == "top"
    assert total(table, pattern)[2] == pytest.approx(-400)
    assert (pattern.line[:, 2] < 0).sum() > 4


def test_halves_make_the_whole() -> None:
    rack = shelved()
    loads = [("shelf", 200.0), ("rail", 50.0)]
    for axis in (0, 1):
        left, right = half(rack, loads, axis, -1.0), half(rack, loads, axis, 1.0)
        assert total(rack, left)[2] == pytest.approx(-150)
        assert total(rack, left + right)[2] == pytest.approx(-300)
    assert half(rack, [], 0, 1.0).is_empty


def test_a_push_meets_the_members_that_come_first() -> None:
    table = frame(TABLE)
    pattern, touch = push_pattern(table, RIGHT, 90.0, 500.0)
    assert touch.points[:, 0] == pytest.approx([20, 20])
    assert total(table, pattern) == pytest.approx((90, 0, 0))


def test_a_push_above_the_frame_bends_it_over() -> None:
    table = frame(TABLE)
    pattern, touch = push_pattern(table, RIGHT, 90.0, 900.0)
    assert touch.points[:, 2] == pytest.approx([900, 900])
    assert pattern.nodal[:, 4].sum() == pytest.approx(90 * 200)
    moved = touch.moved(table, np.zeros((table.model.node_count, 6)))
    assert not moved.any()


def test_nothing_is_empty() -> None:
    assert nothing(frame(TABLE)).is_empty


def test_casters_that_trail_do_not_shift_the_half() -> None:
    """Wheels with a lead stand out at the back, and the front half of the loads is half of them all the same."""
    parts = """
  leg: {stock: frame, path: [[20, 20, 100], [20, 20, 600]], ends: {start: free}, mirror: {x: 400, y: 200}}
  rail: {stock: frame, path: [[20, 20, 620], [20, 380, 620]], mirror: {x: 400}}
  low: {stock: frame, path: [[20, 20, 300], [780, 20, 300]], mirror: {y: 200}}
  shelf: {solid: board, from: [0, 0, 640], to: [800, 400, 640], along: x}
  wheel: {caster: {wheel: 80, width: 25, height: 100, lead: 40, swivel: true}, at: [20, 20, 100],
    mirror: {x: 400, y: 200}}
"""
    cart = frame(parts)
    for sign in (-1.0, 1.0):
        assert total(cart, half(cart, [("shelf", 1000.0)], 1, sign))[2] == pytest.approx(-500)
