from __future__ import annotations

from typing import Any

import numpy as np
import pytest

from fitwright.mechanics import (
    factorise,
    frame_model,
    gap_forces,
    influence,
    probes,
    strain_forces,
    support_influence,
    supports,
)

SECTION: dict[str, Any] = {"e": 2e5, "g": 8e4, "area": 200.0, "i_y": 2e4, "i_z": 3e4, "j": 6e4, "y_axis": (0, 1, 0)}
MODEL = frame_model([[0, 0, 0], [500, 0, 0]], [[0, 1]], **SECTION)
CANTILEVER = factorise(MODEL, supports(MODEL, {0: "fixed"}))


def test_probe_reads_a_difference() -> None:
    probe = probes(MODEL, [{1: (1, 0, 0, 0, 0, 0), 0: (-1, 0, 0, 0, 0, 0)}])
    moved = np.arange(12.0)
    assert (probe.toarray() @ moved).tolist() == [6.0]


def test_unit_load() -> None:
    """L3 / 3 EI and L2 / 2 EI."""
    tip = probes(MODEL, [{1: (0, 1, 0, 0, 0, 0)}, {1: (0, 0, 0, 0, 0, 1)}])
    pushed = np.zeros((12, 1))
    pushed[7] = 1.0
    found = influence(CANTILEVER, tip, pushed)
    assert found[:, 0] == pytest.approx([500**3 / 3 / 2e5 / 3e4, 500**2 / 2 / 2e5 / 3e4])


def test_unit_strains_of_a_cantilever() -> None:
    """L for stretch, L2 / 2 for a curvature about z, and nothing from twisting."""
    tip = probes(MODEL, [{1: (1, 0, 0, 0, 0, 0)}, {1: (0, 1, 0, 0, 0, 0)}, {1: (0, 0, 1, 0, 0, 0)}])
    found = influence(CANTILEVER, tip, strain_forces(CANTILEVER))
    expected = [[500.0, 0, 0, 0], [0, 0, 0, 500**2 / 2], [0, 0, -(500**2) / 2, 0]]
    assert found == pytest.approx(np.array(expected), abs=1e-6)


def test_unit_gap_moves_the_free_end_by_itself() -> None:
    found = influence(CANTILEVER, probes(MODEL, [{1: (1, 0, 0, 0, 0, 0)}]), gap_forces(CANTILEVER))
    assert found[0] == pytest.approx([1, 0, 0, 0, 0, 0], abs=1e-9)


def test_moved_support() -> None:
    """A support that turns by 1 rad swings the tip by L."""
    found = support_influence(CANTILEVER, probes(MODEL, [{1: (0, 1, 0, 0, 0, 0)}]), [1, 5])
    assert found == pytest.approx(np.array([[1.0, 500.0]]))
