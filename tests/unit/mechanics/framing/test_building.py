from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from fitwright.job import parse_job
from fitwright.mechanics import along, factorise, solve, supports
from fitwright.mechanics.framing import framed
from fitwright.mechanics.framing.building import TEST_HEIGHT_MM, push_height
from fitwright.mechanics.framing.loading import mass_pattern
from fitwright.mechanics.loads import GRAVITY
from fitwright.piece import build
from tests.unit.mechanics.framing.pieces import TABLE, frame, made


def test_elements_follow_the_members() -> None:
    table = frame(TABLE)
    assert set(table.elements_of) == set(range(8))
    for k, own in table.elements_of.items():
        stretch = table.stations[own]
        assert stretch[1:, 0] == pytest.approx(stretch[:-1, 1])
        ends = table.model.ends[own]
        assert ends[1:, 0] == pytest.approx(ends[:-1, 1])
        assert [table.model.element_labels[i] for i in own] == [table.piece.members[k].name] * len(own)


def test_lengths_and_slopes() -> None:
    table = frame(TABLE)
    legs = np.concatenate([table.elements_of[k] for k in range(4)])
    assert table.slope[legs] == pytest.approx(1)
    assert table.lengths[legs].sum() == pytest.approx(4 * 700)
    assert not table.curved.any()


def test_an_end_on_an_arm_turns_with_its_node() -> None:
    table = frame(TABLE)
    element, end = table.joints[0].ends[0]
    node = int(table.model.elements[element, end])
    moved = np.zeros((table.model.node_count, 6, 1))
    moved[node, 5, 0] = 0.001
    arm = table.model.offsets[element, end]
    there = table.moved_ends(moved)[element, end, :, 0]
    assert there == pytest.approx(0.001 * np.array([-arm[1], arm[0], 0]))
    assert table.moved_ends(moved[:, :, 0])[element, end] == pytest.approx(there)


def test_mirrored_parts_are_told_from_their_twins() -> None:
    rack = frame(
        TABLE + "  ledge: {stock: angle, path: [[20, 20, 300], [20, 380, 300]], legs: [right, down], mirror: {x: 400}}"
    )
    hands = {rack.piece.members[int(k)].name: h for k, h in zip(rack.member_of, rack.turned, strict=True)}
    assert hands["ledge 1"] == -hands["ledge 2"]


def test_a_node_stands_at_the_height_of_the_push() -> None:
    job, piece = made(TABLE, loads="push: {force: 100 N, height: 450}")
    table = framed(piece, job)
    assert table.push_height == 450
    assert (np.abs(table.model.ends[:, :, 2] - 450) < 1e-9).any()
    plain, other = made(TABLE)
    assert push_height(plain, other) == pytest.approx(min(TEST_HEIGHT_MM, 700))


def test_labels_name_the_parts() -> None:
    table = frame(TABLE)
    assert table.model.node_labels[table.feet[0].node] == "the end of leg 1"
    assert any(label == "rail 1 at 600 mm above the floor" for label in table.model.node_labels)


def test_sleeves_are_left_out_but_weigh() -> None:
    ring = (
        "  loop: {stock: tube, path: [[0, 0, 16], [600, 0, 16], [600, 400, 16], [0, 400, 16]], "
        "radius: [90, 90, 90, 90], closed: true, butt: {at: 1/2, sleeve: inner, length: 80}}\n"
    )
    text = "job: {name: t, unit: mm}\nstock: {tube: round tube 32 x 2, inner: round tube 25 x 2}\nparts:\n" + ring
    job = parse_job(text)
    piece = build(job)
    assert any(member.sleeve_of is not None for member in piece.members)
    loop = framed(piece, job)
    assert set(loop.lines) == {0}
    pattern = mass_pattern(loop)
    down = pattern.nodal[:, 2].sum() + loop.lengths @ pattern.line[:, 2]
    assert down == pytest.approx(-piece.mass * GRAVITY)


@pytest.mark.parametrize("legs", ["[right, down]", "[left, down]", "[right, up]", "[left, up]"])
def test_an_angle_moves_aside_as_its_legs_say(legs: str) -> None:
    """A cantilever under a load straight down: u_x / u_z = -Ixz / Ixx by unsymmetrical bending, Gere, 7th ed., 6.5."""
    ends = "ends: {start: free, finish: auto}"
    text = f"  arm: {{stock: angle, path: [[0, 0, 500], [0, 600, 500]], legs: {legs}, {ends}}}"
    arm = frame(text, space="walls: {back: 600}")
    # loaded through its shear centre, so that it does not twist as well
    model = replace(arm.model, shear_centre=np.zeros((arm.model.element_count, 2)))
    section = arm.stocks[0].section
    right, up = (1 if "right" in legs else -1), (1 if "up" in legs else -1)
    product = right * up * section.i_uv
    down = np.zeros((model.element_count, 3))
    down[:, 2] = -1.0
    moved = solve(factorise(model, supports(model, arm.held)), along(model, down)).by_node
    free = int(np.argmin(model.nodes[:, 1]))
    assert moved[free, 2, 0] < 0
    assert moved[free, 0, 0] / moved[free, 2, 0] == pytest.approx(-product / section.i_v, rel=1e-6)
