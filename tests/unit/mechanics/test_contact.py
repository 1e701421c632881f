from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import product

import numpy as np
import pytest
from numpy.typing import ArrayLike

from fitwright.mechanics import (
    FrameError,
    FrameModel,
    Loads,
    Mechanism,
    Stance,
    at_nodes,
    factorise,
    feet,
    floor,
    frame_model,
    on_feet,
    solve,
    stand,
    supports,
)
from fitwright.mechanics.model import Floats

FEET = [0, 1, 2, 3]
TOP = [4, 5, 6, 7]


def table(stiff: float = 1.0) -> FrameModel:
    """600 x 400 x 500 mm, legs 0-4 to 3-7, rails round the top, node 8 in the middle of a cross bar."""
    corners = [(0, 0), (600, 0), (600, 400), (0, 400)]
    nodes = [(*c, 0) for c in corners] + [(*c, 500) for c in corners] + [(300, 200, 500)]
    elements = [(0, 4), (1, 5), (2, 6), (3, 7), (4, 5), (5, 6), (6, 7), (7, 4), (4, 8), (5, 8), (6, 8), (7, 8)]
    return frame_model(nodes, elements, e=2e5 * stiff, g=8e4 * stiff, area=200, i_y=3e4, i_z=3e4, j=6e4)


def standing(loads: Sequence[Mapping[int, ArrayLike]], gap: Floats | float = 0.0, stick: bool = False) -> Stance:
    model = table()
    legs = feet(FEET, gap=gap, stick=stick)
    held = {} if stick else {0: "ux uy", 2: "ux", 1: ""}
    factor = factorise(model, on_feet(model, supports(model, held), legs))
    return stand(floor(factor, legs), at_nodes(model, loads))


def test_load_in_the_middle_is_shared_by_four() -> None:
    stance = standing([{8: (0, 0, -100, 0, 0, 0)}])
    assert stance.force[:, 0] == pytest.approx([25.0] * 4)
    assert not stance.lift.any()
    assert not stance.tips.any()


def test_short_leg_takes_nothing_until_the_frame_gives_way() -> None:
    """Handbook rule of rock: with one foot 1 mm off the floor, diagonal feet carry all of a light load."""
    light, heavy = -10.0, -20000.0
    stance = standing([{8: (0, 0, light, 0, 0, 0)}, {8: (0, 0, heavy, 0, 0, 0)}], np.array([1.0, 0, 0, 0]))
    assert stance.force[:, 0] == pytest.approx([0.0, 5.0, 0.0, 5.0], abs=1e-6)
    assert stance.lift[0, 0] + stance.lift[2, 0] > 0.5
    assert (stance.force[:, 1] > 0).all()


def test_load_outside_the_feet_tips() -> None:
    """A sideways pull at the top and a small weight: the line of action leaves the feet at F H = W b / 2."""
    weight = {8: (0, 0, -100.0, 0, 0, 0)}
    less = {8: (59.0, 0, -100.0, 0, 0, 0)}
    more = {8: (61.0, 0, -100.0, 0, 0, 0)}
    stance = standing([weight, less, more])
    assert stance.tips.tolist() == [False, False, True]
    assert stance.force[:, 1].sum() == pytest.approx(100.0)
    assert np.isnan(stance.response.displacements[:, 2]).all()
    assert np.isfinite(stance.response.displacements[:, :2]).all()
    going_over = stance.lift[:, 2]
    assert going_over[[0, 3]].min() > going_over[[1, 2]].max()


def enumerated(loads: Loads, gap: Floats) -> Floats:
    """Forces of the feet found by trying all sixteen states of four feet, one solve each."""
    model = table()
    for down in product((True, False), repeat=4):
        held = {0: "ux uy", 2: "ux", 1: ""}
        for foot in range(4):
            held[foot] = held.get(foot, "") + (" uz" if down[foot] else "")
        try:
            factor = factorise(model, supports(model, held))
        except Mechanism:
            continue
        moved = np.zeros((model.node_count, 6))
        moved[FEET, 2] = -gap
        response = solve(factor, loads, moved.ravel())
        force = response.reactions.reshape(-1, 6)[:4, 2]
        lift = response.by_node[:4, 2, 0] + gap
        if (force[list(down)] >= -1e-9).all() and (lift >= -1e-9).all():
            return force
    raise AssertionError("no state of the feet is admissible")


@pytest.mark.parametrize("seed", range(8))
def test_same_as_trying_all_states(seed: int) -> None:
    rng = np.random.default_rng(seed)
    load = (*rng.uniform(-80, 80, 2), -float(rng.uniform(200, 4000)), 0.0, 0.0, 0.0)
    gap = rng.uniform(0, 0.6, 4) * (rng.random(4) < 0.6)
    stance = standing([{8: load}], gap)
    assert stance.force[:, 0] == pytest.approx(enumerated(at_nodes(table(), [{8: load}]), gap), abs=1e-5)


def test_lifted_foot_loses_its_friction() -> None:
    stance = standing(
        [{8: (0, 0, -100.0, 0, 0, 0)}, {4: (0, 0, -10.0, 0, 0, 0), 8: (0, 0, -5.0, 0, 0, 0)}],
        np.array([1.0, 0, 0, 0]),
        stick=True,
    )
    sideways = stance.response.reactions.reshape(-1, 6, 2)[:4, :2]
    off = stance.lift > 1e-9
    assert off.any(axis=0).all()
    assert np.abs(sideways.transpose(0, 2, 1)[off]).max() < 1e-8
    assert stance.force.sum(axis=0) == pytest.approx([100.0, 15.0])


def test_sliding_away_is_refused() -> None:
    model = table()
    legs = feet(FEET, gap=[1.0, 0, 0, 0], stick=[True, False, False, False])
    factor = factorise(model, on_feet(model, supports(model, {2: "rz"}), legs))
    with pytest.raises(Mechanism, match="sliding"):
        stand(floor(factor, legs), at_nodes(model, [{8: (5, 0, -10, 0, 0, 0)}]))


def test_wall_pushes_the_other_way() -> None:
    """A stop on the far side: pushes back towards -X only."""
    model = frame_model([[0, 0, 0], [500, 0, 0]], [[0, 1]], e=2e5, g=8e4, area=200, i_y=3e4, i_z=3e4, j=6e4)
    stop = feet([1], axis="ux", sign=-1.0)
    factor = factorise(model, on_feet(model, supports(model, {0: "fixed"}), stop))
    stance = stand(floor(factor, stop), at_nodes(model, [{1: (70, 0, 0, 0, 0, 0)}, {1: (-70, 0, 0, 0, 0, 0)}]))
    assert stance.force[0] == pytest.approx([70.0, 0.0], abs=1e-9)
    assert stance.lift[0] == pytest.approx([0.0, 70 * 500 / 2e5 / 200])


def test_feet_have_to_be_held_in_the_factor() -> None:
    model = table()
    factor = factorise(model, supports(model, {0: "fixed"}))
    with pytest.raises(FrameError, match="on_feet"):
        floor(factor, feet(FEET))
