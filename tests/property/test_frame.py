"""What holds for every frame: superposition, reciprocity, equilibrium, and indifference to how it is turned."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fitwright.mechanics import (
    Factor,
    FrameModel,
    Loads,
    add,
    along,
    at_points,
    combine,
    factorise,
    feet,
    floor,
    forces,
    frame_model,
    gap_forces,
    influence,
    on_feet,
    side_by_side,
    solve,
    stand,
    strain_forces,
    strains,
    supports,
)
from fitwright.mechanics.axes import skew
from fitwright.mechanics.model import Floats

seeds = st.integers(0, 10_000)
few = settings(max_examples=15, deadline=None)


def frame(seed: int) -> FrameModel:
    """A random connected frame of eight nodes with unsymmetric, offset, released and shear-flexible elements."""
    rng = np.random.default_rng(seed)
    n = 8
    tree = [(int(rng.integers(0, k)), k) for k in range(1, n)]
    extra = [(0, n - 1), (1, n - 2), (2, n - 1)]
    pairs = [pair for pair in extra if pair not in tree] + tree
    m = len(pairs)
    releases = np.zeros((m, 12), dtype=np.bool_)
    releases[0, rng.integers(3, 6)] = releases[0, 10] = True
    return frame_model(
        rng.uniform(-600, 600, (n, 3)),
        pairs,
        e=2e5,
        g=7.7e4,
        area=rng.uniform(100, 300, m),
        i_y=rng.uniform(2e4, 4e4, m),
        i_z=rng.uniform(2e4, 4e4, m),
        i_yz=rng.uniform(-1e4, 1e4, m),
        j=rng.uniform(5e3, 6e4, m),
        y_axis=rng.normal(size=(m, 3)),
        shear_y=rng.choice([60.0, np.inf], m),
        offsets=rng.uniform(-10, 10, (m, 2, 3)),
        shear_centre=rng.uniform(-8, 8, (m, 2)),
        softening=rng.uniform(1, 2, m),
        releases=releases,
    )


def held(model: FrameModel) -> Factor:
    return factorise(model, supports(model, {0: "fixed", 3: "ux uz"}, {5: (10, 20, 5, 1e3, 1e3, 1e3)}))


def loads(model: FrameModel, seed: int, cases: int = 1) -> Loads:
    """Every kind of load at once."""
    rng = np.random.default_rng(seed + 1)
    m = model.element_count
    return add(
        forces(model, rng.normal(size=(model.dof_count, cases)) * 100),
        along(model, rng.normal(size=(m, 3, cases))),
        at_points(model, [1, 2, 1], [5.0, 3.0, 9.0], rng.normal(size=(3, 6, cases)) * 50),
        strains(model, rng.normal(size=(m, 4, cases)) * [[[1e-4], [1e-6], [1e-6], [1e-6]]]),
    )


def turned(model: FrameModel, turn: Floats) -> FrameModel:
    return replace(model, nodes=model.nodes @ turn.T, y_axis=model.y_axis @ turn.T, offsets=model.offsets @ turn.T)


def random_turn(seed: int) -> Floats:
    q, _ = np.linalg.qr(np.random.default_rng(seed).normal(size=(3, 3)))
    return np.asarray(q * np.linalg.det(q))


@few
@given(seeds)
def test_turning_the_whole_frame_turns_the_answer(seed: int) -> None:
    model, turn = frame(seed), random_turn(seed)
    load = loads(model, seed)
    assert load.line is not None
    other = turned(model, turn)
    nodal = turn @ load.nodal.reshape(-1, 3, 1)
    other_load = replace(load, nodal=nodal.reshape(-1, 1), line=turn @ load.line)
    one = solve(factorise(model, supports(model, {0: "fixed", 3: "pinned"})), load)
    two = solve(factorise(other, supports(other, {0: "fixed", 3: "pinned"})), other_load)
    expected = (turn @ one.displacements.reshape(-1, 3, 1)).reshape(-1, 1)
    assert two.displacements == pytest.approx(expected, rel=1e-6, abs=1e-7 * np.abs(expected).max())
    size = np.abs(one.end_forces).max()
    assert two.end_forces == pytest.approx(one.end_forces, rel=1e-6, abs=1e-7 * size)


@few
@given(seeds)
def test_superposition(seed: int) -> None:
    model = frame(seed)
    factor, load = held(model), loads(model, seed, 3)
    factors = np.random.default_rng(seed).normal(size=(3, 2))
    together = solve(factor, combine(load, factors))
    apart = solve(factor, load)
    for name in ("displacements", "end_forces", "reactions"):
        expected = getattr(apart, name) @ factors
        assert getattr(together, name) == pytest.approx(expected, rel=1e-8, abs=1e-8 * np.abs(expected).max())


@few
@given(seeds)
def test_reciprocity(seed: int) -> None:
    """Work of the first forces along the second displacements equals the reverse: Maxwell and Betti."""
    model = frame(seed)
    load = forces(model, np.random.default_rng(seed).normal(size=(model.dof_count, 2)))
    moved = solve(held(model), load).displacements
    work = load.nodal.T @ moved
    assert work[0, 1] == pytest.approx(work[1, 0], rel=1e-8, abs=1e-9 * np.abs(work).max())


@few
@given(seeds)
def test_supports_carry_exactly_the_load(seed: int) -> None:
    """Forces and moments about the origin of loads, reactions and ground springs add up to nothing."""
    model = frame(seed)
    factor = factorise(model, supports(model, {0: "fixed", 3: "ux uz"}))
    rng = np.random.default_rng(seed)
    load = add(forces(model, rng.normal(size=model.dof_count)), along(model, rng.normal(size=(model.element_count, 3))))
    assert load.line is not None
    response = solve(factor, load)
    at_nodes = (response.reactions + load.nodal).reshape(-1, 6)
    on_elements = load.line[:, :, 0] * factor.elements.length[:, None]
    total = at_nodes[:, :3].sum(axis=0) + on_elements.sum(axis=0)
    moment = at_nodes[:, 3:].sum(axis=0) + np.cross(model.nodes, at_nodes[:, :3]).sum(axis=0)
    moment += np.cross(model.ends.mean(axis=1), on_elements).sum(axis=0)
    assert np.abs(total).max() < 1e-6
    assert np.abs(moment).max() < 1e-3


@few
@given(seeds)
def test_elements_are_in_equilibrium(seed: int) -> None:
    model = frame(seed)
    load = replace(loads(model, seed), line=None)
    response = solve(held(model), replace(load, point_elements=load.point_elements[:0]))
    ends = response.end_forces[:, :, 0]
    arm = response.factor.elements.length[:, None] * np.array([1.0, 0.0, 0.0])
    assert np.abs(ends[:, :3] + ends[:, 6:9]).max() < 1e-6
    turn = ends[:, 3:6] + ends[:, 9:] + np.cross(arm, ends[:, 6:9])
    assert np.abs(turn).max() < 1e-3


@few
@given(seeds)
def test_influence_is_the_same_from_both_sides(seed: int) -> None:
    """Few outputs take the adjoint way, many the direct one; both are what single solves give."""
    model = frame(seed)
    factor = held(model)
    gaps, eye = gap_forces(factor), np.eye(model.dof_count)
    many = influence(factor, eye, gaps)
    few_rows = influence(factor, eye[[4, 20, 31]], gaps)
    assert few_rows == pytest.approx(many[[4, 20, 31]], rel=1e-7, abs=1e-9 * np.abs(many).max())
    imposed = np.random.default_rng(seed).normal(size=(model.element_count, 4)) * [1e-3, 1e-5, 1e-5, 1e-5]
    whole = influence(factor, eye, strain_forces(factor)) @ imposed.ravel()
    assert whole == pytest.approx(solve(factor, strains(model, imposed)).displacements[:, 0], rel=1e-6, abs=1e-9)


@few
@given(seeds)
def test_feet_push_or_are_off_but_never_both(seed: int) -> None:
    model = frame(seed)
    rng = np.random.default_rng(seed)
    legs = feet([2, 4, 6], gap=rng.uniform(0, 0.5, 3))
    factor = factorise(model, on_feet(model, supports(model, {0: "fixed"}), legs))
    stance = stand(floor(factor, legs), forces(model, rng.normal(size=(model.dof_count, 4)) * 200))
    size = np.abs(stance.force).max() + 1.0
    assert not stance.tips.any()
    assert stance.lift.min() > -1e-7
    assert stance.force.min() > -1e-7 * size
    assert np.abs(stance.lift * stance.force).max() < 1e-6 * size


@few
@given(seeds)
def test_offsets_are_the_same_as_rigid_ties(seed: int) -> None:
    """An element with an offset end, and the same element on a node of its own tied rigidly to the first."""
    rng = np.random.default_rng(seed)
    arm, end = rng.uniform(-40, 40, 3), rng.uniform(200, 400, 3)
    data: dict[str, Any] = {
        "e": 2e5,
        "g": 8e4,
        "area": 200.0,
        "i_y": 3e4,
        "i_z": 2e4,
        "j": 4e4,
        "y_axis": (0.3, -0.5, 0.7),
    }
    offset = frame_model(np.array([np.zeros(3), end]), [[0, 1]], offsets=[[np.zeros(3), arm]], **data)
    tied = frame_model(np.array([np.zeros(3), end, end + arm]), [[0, 2]], rigid=[[2, 1]], **data)
    force = rng.normal(size=6) * 100
    one = solve(factorise(offset, supports(offset, {0: "fixed"})), forces(offset, np.r_[np.zeros(6), force]))
    two = solve(factorise(tied, supports(tied, {0: "fixed"})), forces(tied, np.r_[np.zeros(6), force, np.zeros(6)]))
    assert two.by_node[:2] == pytest.approx(one.by_node, rel=1e-8, abs=1e-12)
    carried = two.by_node[1, :3, 0] - skew(arm) @ two.by_node[1, 3:, 0]
    assert two.by_node[2, :3, 0] == pytest.approx(carried, abs=1e-10)


@few
@given(seeds, st.integers(1, 4))
def test_side_by_side_keeps_each_case(seed: int, cases: int) -> None:
    model = frame(seed)
    factor = held(model)
    one, two = loads(model, seed, cases), loads(model, seed + 7, 2)
    both = solve(factor, side_by_side(one, two)).displacements
    assert both[:, :cases] == pytest.approx(solve(factor, one).displacements, rel=1e-9, abs=1e-9)
    assert both[:, cases:] == pytest.approx(solve(factor, two).displacements, rel=1e-9, abs=1e-9)
