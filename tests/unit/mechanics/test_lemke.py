from __future__ import annotations

import numpy as np
import pytest

from fitwright.mechanics.lemke import lemke


def test_nothing_to_do_when_all_forces_push() -> None:
    assert lemke(np.eye(2), np.array([1.0, 0.0])).z.tolist() == [0.0, 0.0]


def test_two_by_two_by_hand() -> None:
    """2 a + b = 5, a + 2 b = 6."""
    answer = lemke(np.array([[2.0, 1.0], [1.0, 2.0]]), np.array([-5.0, -6.0]))
    assert answer.solved
    assert answer.z == pytest.approx([4 / 3, 7 / 3])


def test_only_one_moves() -> None:
    """With q = (-2, 1): z = (1, 0), w = (0, 1 + 1)."""
    answer = lemke(np.array([[2.0, 1.0], [1.0, 2.0]]), np.array([-2.0, 1.0]))
    assert answer.z == pytest.approx([1.0, 0.0])


def test_ray_proves_that_there_is_no_solution() -> None:
    """M = [1 -1; -1 1] resists no common movement, and q falls along it."""
    answer = lemke(np.array([[1.0, -1.0], [-1.0, 1.0]]), np.array([-3.0, 1.0]))
    assert not answer.solved
    assert answer.z[0] == pytest.approx(answer.z[1])
    assert answer.z @ np.array([-3.0, 1.0]) < 0


def test_semidefinite_but_solvable() -> None:
    answer = lemke(np.array([[1.0, -1.0], [-1.0, 1.0]]), np.array([-1.0, 3.0]))
    assert answer.solved
    assert answer.z == pytest.approx([1.0, 0.0])


def test_ties_do_not_go_round_in_a_circle() -> None:
    """Many equal rows: degenerate throughout."""
    n = 8
    answer = lemke(np.ones((n, n)), np.full(n, -2.0))
    assert answer.solved
    assert answer.z.sum() == pytest.approx(2.0)


@pytest.mark.parametrize("seed", range(20))
def test_random_problems_are_complementary(seed: int) -> None:
    rng = np.random.default_rng(seed)
    n = int(rng.integers(1, 9))
    root = rng.normal(size=(n, n))
    m, q = root @ root.T * 1e4, rng.normal(size=n) * 300
    answer = lemke(m, q)
    w = q + m @ answer.z
    assert answer.solved
    assert w.min() > -1e-6
    assert np.abs(w * answer.z).max() < 1e-6
