from __future__ import annotations

import numpy as np
import pytest

from fitwright.mechanics.variation.stops import straights
from tests.unit.mechanics.variation.samples import RACK, TABLE, setting_of


def test_flat_frames_then_the_whole() -> None:
    stages = setting_of(RACK).stages
    assert [stage.name for stage in stages] == ["flat frames", "the whole"]
    assert len(stages[0].meetings) == 2
    assert len(stages[1].meetings) == 8


def test_every_joint_is_made_once() -> None:
    for text in (RACK, TABLE):
        setting = setting_of(text)
        made = [i for stage in setting.stages for i in stage.meetings]
        assert sorted(made) == list(range(len(setting.parts.meetings)))


def test_straights_of_a_hoop_are_its_legs_and_its_top() -> None:
    parts = setting_of(RACK).parts
    nodes = parts.model.nodes
    lengths = [float(np.linalg.norm(nodes[b] - nodes[a])) for a, b in straights(parts, 0)]
    assert lengths == pytest.approx([925, 370, 925], abs=0.1)


def test_ledges_at_one_height_are_set_by_one_block() -> None:
    blocks = [stop for stop in setting_of(RACK).stages[1].stops if stop.kind == "block_length"]
    assert len(blocks) == 4
    assert {stop.shared for stop in blocks} == {"400 mm along Z"}
    assert all(stop.along @ [0, 0, 1] == pytest.approx(1) for stop in blocks)


def test_ends_with_feet_have_a_stop_of_their_own() -> None:
    setting = setting_of(RACK)
    upright = {stop.node for stop in setting.stages[1].stops if abs(stop.along[2]) > 0.9 and stop.kind == "bench_stop"}
    assert {foot.node for foot in setting.parts.feet} <= upright


def test_only_the_largest_frame_lies_on_the_bench() -> None:
    setting = setting_of(RACK)
    flat = {int(setting.parts.member_of[s.node]) for s in setting.stages[1].stops if s.kind == "bench_floor"}
    assert flat == {0}


def test_other_frames_are_set_up_by_a_square() -> None:
    setting = setting_of(RACK)
    squared = [stop for stop in setting.stages[1].stops if stop.turn and setting.parts.member_of[stop.node] == 1]
    assert len({stop.shared for stop in squared}) == 2
    assert all(stop.kind == "square" and stop.along @ [0, 1, 0] == pytest.approx(0, abs=1e-9) for stop in squared)


RINGS = """
job: {name: Two rings, unit: mm}
stock: {tube: round tube 25 x 2}
parts:
  ring:
    stock: tube
    ring: {centre: [0, 0, 400], diameter: 300, axis: z}
    repeat: {z: [0, 200]}
  post:
    stock: tube
    path: [[175, 0, 0], [175, 0, 700]]
    ends: free
    repeat: {around: {centre: [0, 0], count: 4}}
"""


def test_a_ring_set_up_on_another_frame_is_held_all_round() -> None:
    """It has no straight of its own to hold by a square."""
    setting = setting_of(RINGS)
    assert not straights(setting.parts, 0)
    squared = {stop.node for stage in setting.stages for stop in stage.stops if stop.kind == "square" and stop.turn}
    rings = [set(map(int, setting.parts.nodes_of[k])) for k in (0, 1)]
    assert any(ring <= squared for ring in rings)
