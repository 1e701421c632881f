from __future__ import annotations

from typing import Any

import numpy as np
import pytest

from fitwright.mechanics import at_nodes, factorise, frame_model, solve, stiffness, supports

SECTION: dict[str, Any] = {"e": 2e5, "g": 8e4, "area": 200.0, "i_y": 2e4, "i_z": 3e4, "j": 6e4}


def test_elements_meet_at_their_node() -> None:
    model = frame_model([[0, 0, 0], [100, 0, 0], [300, 0, 0]], [[0, 1], [1, 2]], **SECTION)
    matrix = stiffness(model).toarray()
    assert matrix[6, 6] == pytest.approx(2e5 * 200 / 100 + 2e5 * 200 / 200)
    assert matrix[0, 12] == 0


def test_ground_springs_are_added_when_given() -> None:
    model = frame_model([[0, 0, 0], [100, 0, 0]], [[0, 1]], **SECTION)
    more = stiffness(model, supports(model, {}, {1: (1, 2, 3, 4, 5, 6)})) - stiffness(model)
    assert more.toarray()[6:, 6:].diagonal() == pytest.approx([1, 2, 3, 4, 5, 6], abs=1e-6)


def test_spring_link_between_nodes() -> None:
    """Two cantilevers end to end, joined by a spring of 80 N/mm across: springs in series by hand."""
    block = np.diag([1e3, 1e3, 80.0, 0, 0, 0])
    model = frame_model(
        [[0, 0, 0], [500, 0, 0], [500, 0, 0], [1000, 0, 0]],
        [[0, 1], [2, 3]],
        **SECTION,
        links=[[1, 2]],
        link_stiffness=[block],
    )
    response = solve(
        factorise(model, supports(model, {0: "fixed", 3: "fixed"})), at_nodes(model, [{1: (0, 0, -100, 0, 0, 0)}])
    )
    tip = 3 * 2e5 * 2e4 / 500**3
    far = 1 / (1 / tip + 1 / 80)
    assert response.by_node[1, 2, 0] == pytest.approx(-100 / (tip + far))
    assert response.reactions[20, 0] == pytest.approx(100 * far / (tip + far))
    assert response.link_forces[0, 2, 0] == pytest.approx(100 * far / (tip + far))


def test_link_across_a_distance_is_rigid_but_for_its_spring() -> None:
    """A link between nodes 40 mm apart turns with them: a rigid motion costs nothing."""
    model = frame_model(
        [[0, 0, 0], [0, 40, 0], [100, 0, 0]],
        [[0, 2]],
        **SECTION,
        links=[[0, 1]],
        link_stiffness=[np.diag([10.0, 20, 30, 1e4, 2e4, 3e4])],
    )
    turn = np.zeros((3, 6))
    turn[:, 5] = 1.0
    turn[:, :3] = np.cross([0, 0, 1.0], model.nodes)
    assert np.abs(stiffness(model).toarray() @ turn.ravel()).max() < 1e-6
