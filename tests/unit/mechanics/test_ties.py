from __future__ import annotations

from typing import Any

import numpy as np
import pytest

from fitwright.mechanics import FrameError, at_nodes, factorise, frame_model, solve, supports

SECTION: dict[str, Any] = {"e": 2e5, "g": 8e4, "area": 200.0, "i_y": 2e4, "i_z": 3e4, "j": 6e4}


def test_four_springy_casters_under_a_rigid_top() -> None:
    """240 lb at (18, 7) on equal springs at (0,0) (30,0) (30,18) (0,18): W (1/4 +- ex/2a +- ey/2b) = 61.33, 85.33,
    58.67, 34.67 lb; elementary."""
    corners = [(0, 0), (30, 0), (30, 18), (0, 18)]
    nodes = [(*c, 0) for c in corners] + [(18, 7, 0), (18, 7, 10)]
    model = frame_model(nodes, [[4, 5]], **SECTION, rigid=[[k, 4] for k in range(4)])
    springs = dict.fromkeys(range(4), (0, 0, 100.0, 0, 0, 0))
    factor = factorise(model, supports(model, {4: "ux uy rz"}, springs))
    response = solve(factor, at_nodes(model, [{5: (0, 0, -240, 0, 0, 0)}]))
    assert response.spring_forces[:, 2, 0] == pytest.approx([61.33, 85.33, 58.67, 34.67], abs=0.01)


def test_chain_of_ties_and_load_on_a_carried_node() -> None:
    """A force on the last of a chain acts at its own place."""
    nodes = [[0, 0, 0], [500, 0, 0], [500, 60, 0], [500, 60, 40]]
    model = frame_model(nodes, [[0, 1]], **SECTION, rigid=[[3, 2], [2, 1]])
    factor = factorise(model, supports(model, {0: "fixed"}))
    response = solve(factor, at_nodes(model, [{3: (10, 0, 0, 0, 0, 0)}]))
    assert response.reactions[:6, 0] == pytest.approx([-10, 0, 0, 0, -400, 600])
    turn = response.by_node[1, 3:, 0]
    carried = response.by_node[1, :3, 0] + np.cross(turn, [0, 60, 40])
    assert response.by_node[3, :3, 0] == pytest.approx(carried)


def test_ties_that_contradict() -> None:
    nodes = [[0, 0, 0], [1, 0, 0], [2, 0, 0]]
    circle = frame_model(nodes, [[0, 1]], **SECTION, rigid=[[1, 2], [2, 1]])
    with pytest.raises(FrameError, match="circle"):
        factorise(circle, supports(circle, {0: "fixed"}))
    twice = frame_model(nodes, [[0, 1]], **SECTION, rigid=[[2, 0], [2, 1]])
    with pytest.raises(FrameError, match="carried by two"):
        factorise(twice, supports(twice, {0: "fixed"}))
    held = frame_model(nodes, [[0, 1]], **SECTION, rigid=[[2, 1]])
    with pytest.raises(FrameError, match="node 2 is held and also tied"):
        factorise(held, supports(held, {0: "fixed", 2: "pinned"}))
