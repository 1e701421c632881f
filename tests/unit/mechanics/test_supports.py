from __future__ import annotations

from typing import Any

import numpy as np
import pytest

from fitwright.mechanics import FrameError, at_nodes, factorise, frame_model, solve, supports

SECTION: dict[str, Any] = {"e": 2e5, "g": 8e4, "area": 200.0, "i_y": 2e4, "i_z": 3e4, "j": 6e4}
MODEL = frame_model([[0, 0, 0], [300, 0, 0]], [[0, 1]], **SECTION)


def test_words() -> None:
    held = supports(MODEL, {0: "pinned", 1: "uz rx"}).held
    assert held.tolist() == [[True, True, True, False, False, False], [False, False, True, True, False, False]]
    assert supports(MODEL, {0: "fixed", 1: "free"}).held.sum() == 6


def test_unknown_words_and_nodes() -> None:
    with pytest.raises(FrameError, match="'clamped' is not known: use fixed"):
        supports(MODEL, {0: "clamped"})
    with pytest.raises(FrameError, match="nodes 0 to 1"):
        supports(MODEL, {2: "fixed"})
    with pytest.raises(FrameError, match="shape"):
        supports(MODEL, {}, {0: [1.0, 2.0]})


def test_inclined_spring() -> None:
    """A spring at 45 degrees gives way along itself only."""
    along = np.array([1.0, 1.0, 0.0]) / np.sqrt(2)
    block = np.zeros((6, 6))
    block[:3, :3] = 50 * np.outer(along, along)
    block[:3, :3] += 1e9 * (np.eye(3) - np.outer(along, along))
    block[3:, 3:] = 1e12 * np.eye(3)
    factor = factorise(MODEL, supports(MODEL, {}, {0: block}))
    moved = solve(factor, at_nodes(MODEL, [{0: (100, 0, 0, 0, 0, 0)}])).by_node[0, :3, 0]
    assert moved == pytest.approx([1.0, 1.0, 0.0], abs=1e-5)
