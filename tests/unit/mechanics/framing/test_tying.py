from __future__ import annotations

import numpy as np
import pytest

from fitwright.mechanics import Mechanism, factorise, on_feet
from fitwright.mechanics.framing import Framed, floor_feet, holding
from fitwright.mechanics.framing.tying import lap_stiffness
from tests.unit.mechanics.framing.pieces import TABLE, frame

BOLTED = TABLE.replace("mirror: {x: 400}}", "mirror: {x: 400}, fastened: bolted}")


def hold(framed: Framed) -> None:
    feet = floor_feet(framed, stick=True)
    factorise(framed.model, on_feet(framed.model, holding(framed, stick=True), feet))


def test_a_welded_joint_is_one_node_with_an_arm_to_the_branch() -> None:
    table = frame(TABLE)
    place = table.joints[0]
    (element, end), *others = place.ends
    assert not others
    assert int(table.model.elements[element, end]) == place.node
    assert np.linalg.norm(table.model.offsets[element, end]) == pytest.approx(20)
    assert not table.model.releases.any()
    hold(table)


def test_a_bolted_end_is_a_hinge_in_the_plane_of_its_members() -> None:
    table = frame(BOLTED)
    released = np.argwhere(table.model.releases)
    assert len(released) == 4
    # rails run along Y and legs along Z, so the hinge is about X: the section's v or u, whichever lies along it
    for element, dof in released:
        axis = table.model.y_axis[element] if dof % 6 == 4 else np.cross([0, 1.0, 0], table.model.y_axis[element])
        assert abs(axis[0]) == pytest.approx(1)


def test_a_bolted_rectangle_racks_and_names_its_members() -> None:
    with pytest.raises(Mechanism) as racks:
        hold(frame(BOLTED))
    assert "leg 1" in racks.value.elements
    assert "rail 1" in racks.value.elements


def test_a_brace_stops_it() -> None:
    brace = "  brace: {stock: flat, path: [[42.5, 20, 100], [42.5, 380, 500]], wide: z, ends: free}\n"
    hold(frame(BOLTED + brace + brace.replace("brace", "other").replace("42.5", "757.5")))


def test_a_bolted_lap_is_a_link_that_turns_about_its_bolt() -> None:
    lap = "  strip: {stock: flat, path: [[300, 0, 622.5], [300, 400, 622.5]], wide: x, ends: free, fastened: bolted}\n"
    table = frame(TABLE + lap)
    assert len(table.model.links) == 2
    turn = table.model.link_stiffness[0, 3:, 3:]
    assert turn[2, 2] == pytest.approx(0)
    assert turn[0, 0] > 0
    hold(table)


def test_lap_stiffness_is_free_about_its_axis_only() -> None:
    values = np.linalg.eigvalsh(lap_stiffness(np.array([1.0, 2.0, 2.0])))
    assert (np.abs(values) < 1e-3).sum() == 1


def test_a_closed_member_is_closed() -> None:
    ring = frame(
        "  ring: {stock: tube, ring: {centre: [200, 200, 450], diameter: 300, axis: z}}\n"
        "  leg: {stock: tube, path: [[50, 200, 0], [50, 200, 450]], ends: {start: free, finish: auto}, "
        "repeat: {around: {centre: [200, 200], count: 3}}}\n"
    )
    own = ring.elements_of[0]
    assert ring.model.elements[own[0], 0] == ring.model.elements[own[-1], 1]
    assert ring.curved[own].all()
    hold(ring)


def test_three_members_that_meet_at_one_place_leave_a_short_piece_its_two_ends() -> None:
    """The brace ends on the post and on the rail, and the post's end 20 mm higher is bolted to the same rail."""
    bay = """
  leg: {stock: frame, path: [[20, 20, 0], [20, 20, 620]], mirror: {x: 400, y: 200}}
  rail: {stock: frame, path: [[20, 20, 600], [780, 20, 600]], fastened: bolted, mirror: {y: 200}}
  side: {stock: frame, path: [[20, 20, 600], [20, 380, 600]], mirror: {x: 400}}
  brace: {stock: flat, path: [[20, 20, 60], [780, 20, 600]], wide: z, fastened: bolted, mirror: {y: 200}}
  low: {stock: frame, path: [[20, 20, 60], [20, 380, 60]], mirror: {x: 400}}
"""
    braced = frame(bay)
    assert (braced.model.elements[:, 0] != braced.model.elements[:, 1]).all()
    assert len(braced.model.links) == 2
    stiff = braced.model.link_stiffness[0]
    assert np.linalg.eigvalsh(stiff)[0] > 0
    hold(braced)


def test_a_bolt_lets_the_rail_turn_and_not_the_post_that_runs_past_it() -> None:
    """At a corner the post goes up to the top and the rail is cut to it: a side rail welded there stays rigid."""
    bay = """
  leg: {stock: frame, path: [[20, 20, 0], [20, 20, 620]], mirror: {x: 400, y: 200}}
  rail: {stock: frame, path: [[20, 20, 600], [780, 20, 600]], fastened: bolted, mirror: {y: 200}}
  side: {stock: frame, path: [[20, 20, 600], [20, 380, 600]], mirror: {x: 400}}
"""
    table = frame(bay)
    released = {int(element) for element, _ in np.argwhere(table.model.releases)}
    parts = {table.piece.members[int(table.member_of[element])].part for element in released}
    assert parts == {"rail"}
    assert len(released) == 4
