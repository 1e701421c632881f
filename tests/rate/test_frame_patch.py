"""Patch tests: what must come out exact on any mesh, and how fast the chords of a bend approach it.

Patch tests: B. Irons, A. Razzaque, in The Mathematical Foundations of the Finite Element Method (1972): a rigid
movement gives no force, a state of constant strain is met exactly.
"""

from __future__ import annotations

import math

import numpy as np
import pytest

from fitwright.mechanics import (
    FrameModel,
    at_nodes,
    chords,
    factorise,
    forces,
    frame_model,
    refine,
    solve,
    stiffness,
    strains,
    supports,
)
from fitwright.mechanics.model import Floats


def crooked(seed: int = 3) -> FrameModel:
    """Every feature at once: skew axes, product of inertia, shear, offsets, shear centres, releases, softening."""
    rng = np.random.default_rng(seed)
    m = 7
    releases = np.zeros((m, 12), dtype=np.bool_)
    releases[4, [4, 5]] = releases[6, [10, 11]] = True
    return frame_model(
        rng.uniform(-500, 500, (6, 3)),
        [[0, 1], [1, 2], [2, 3], [3, 4], [4, 5], [5, 0], [1, 4]],
        e=2e5,
        g=7.7e4,
        area=rng.uniform(100, 300, m),
        i_y=rng.uniform(2e4, 4e4, m),
        i_z=rng.uniform(2e4, 4e4, m),
        i_yz=rng.uniform(-1e4, 1e4, m),
        j=rng.uniform(1e3, 6e4, m),
        y_axis=rng.normal(size=(m, 3)),
        shear_y=rng.uniform(50, 150, m),
        shear_z=rng.uniform(50, 150, m),
        softening=rng.uniform(1, 2, m),
        offsets=rng.uniform(-15, 15, (m, 2, 3)),
        shear_centre=rng.uniform(-8, 8, (m, 2)),
        releases=releases,
    )


def rigid_motions(nodes: Floats) -> Floats:
    """(6n, 6) three shifts, then three turns about the origin."""
    moves = np.zeros((len(nodes), 6, 6))
    moves[:, :3, :3] = moves[:, 3:, 3:] = np.eye(3)
    for axis in range(3):
        moves[:, :3, 3 + axis] = np.cross(np.eye(3)[axis], nodes)
    return moves.reshape(-1, 6)


def test_rigid_motion_gives_no_force() -> None:
    model = crooked()
    matrix = stiffness(model)
    moves = rigid_motions(model.nodes)
    dense = matrix.toarray()
    size = np.abs(dense) @ np.abs(moves)
    assert (np.abs(dense @ moves) < 1e-13 * size.max(axis=0)).all()


def test_stiffness_is_symmetric_with_exactly_six_free_motions() -> None:
    matrix = stiffness(crooked()).toarray()
    assert matrix == pytest.approx(matrix.T, abs=1e-9 * np.abs(matrix).max())
    values = np.linalg.eigvalsh(matrix)
    assert (np.abs(values[:6]) < 1e-10 * values[-1]).all()
    assert values[6] > 1e-7 * values[-1]


def test_supports_moved_as_one_carry_the_frame_along() -> None:
    model = crooked()
    factor = factorise(model, supports(model, {0: "fixed", 3: "pinned"}))
    moves = rigid_motions(model.nodes)
    response = solve(factor, forces(model, np.zeros_like(moves)), moves)
    assert response.displacements == pytest.approx(moves, abs=1e-8 * np.abs(moves).max())
    assert np.abs(response.end_forces).max() < 1e-12 * 2e5 * 300


def test_imposed_strain_in_a_frame_that_can_follow_gives_no_stress() -> None:
    """A chain held at one end only: statically determinate."""
    model = crooked()
    chain = frame_model(
        model.nodes,
        model.elements[:5],
        e=2e5,
        g=7.7e4,
        area=200,
        i_y=3e4,
        i_z=2e4,
        i_yz=5e3,
        j=900,
        offsets=model.offsets[:5],
        shear_centre=model.shear_centre[:5],
    )
    factor = factorise(chain, supports(chain, {0: "fixed"}))
    response = solve(factor, strains(chain, np.random.default_rng(0).normal(size=(5, 4)) * [1e-3, 1e-5, 1e-5, 1e-5]))
    assert np.abs(response.displacements).max() > 0.1
    assert np.abs(response.end_forces).max() < 1e-6
    assert np.abs(response.reactions).max() < 1e-6


@pytest.mark.parametrize("parts", [2, 5])
def test_finer_mesh_changes_nothing_at_the_nodes(parts: int) -> None:
    coarse = crooked()
    fine = refine(coarse, parts)
    load = {1: (100, -50, 30, 1e4, 0, -2e4), 5: (0, 0, -200, 0, 0, 0)}
    held = {0: "fixed", 3: "pinned"}
    one = solve(factorise(coarse, supports(coarse, held)), at_nodes(coarse, [load])).by_node
    other = solve(factorise(fine, supports(fine, held)), at_nodes(fine, [load])).by_node
    assert other[:6] == pytest.approx(one, rel=1e-7, abs=1e-9 * np.abs(one).max())


def bend_sag(count: int) -> float:
    """Out-of-plane movement of a quarter bend in so many chords, beside the closed form (see the quarter-circle tube in
    tests/outside)."""
    points = chords(np.zeros(3), np.array([0.0, 0.0, 1.0]), np.array([1000.0, 0.0, 0.0]), math.pi / 2, count)
    model = frame_model(
        points, [[k, k + 1] for k in range(count)], e=2e5, g=2e5 / 2.6, area=113, i_y=4637, i_z=4637, j=9274
    )
    tip = solve(factorise(model, supports(model, {0: "fixed"})), at_nodes(model, [{count: (0, 0, 100, 0, 0, 0)}]))
    exact = 100 * 1000**3 * (math.pi / 4 / (2e5 * 4637) + (3 * math.pi / 4 - 2) / (2e5 / 2.6 * 9274))
    return float(tip.by_node[count, 2, 0] / exact - 1)


def test_chords_of_a_bend_approach_the_arc_with_the_square_of_their_length() -> None:
    errors = np.array([bend_sag(count) for count in (4, 8, 16, 32)])
    assert np.log2(errors[:-1] / errors[1:]) == pytest.approx([2.0, 2.0, 2.0], abs=0.05)
    assert abs(errors[1]) < 0.007
    assert abs(errors[2]) < 0.002
