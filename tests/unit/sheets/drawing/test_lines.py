"""Bits of line united and joined."""

from __future__ import annotations

import numpy as np
import pytest

from fitwright.sheets.drawing.lines import chained, tidy, united


def test_overlapping_bits_become_one() -> None:
    bits = np.array([[[0, 0], [10, 0]], [[30, 0], [8, 0]], [[40, 0], [50, 0]], [[0, 5], [10, 5]]], dtype=float)
    made = united(bits)
    spans = sorted((b[:, 0].min(), b[:, 0].max(), b[0, 1]) for b in made)
    assert spans == [pytest.approx(s) for s in ((0, 10, 5), (0, 30, 0), (40, 50, 0))]


def test_coincident_slanting_bits_far_from_the_origin() -> None:
    a = np.array([[5000.0, 3000.0], [5100.0, 3173.0]])
    made = united(np.stack([a, a[::-1], a + 1e-7]))
    assert made.shape == (1, 2, 2)
    assert np.hypot(*(made[0, 1] - made[0, 0])) == pytest.approx(np.hypot(100, 173), abs=1e-5)


def test_a_square_is_one_closed_line() -> None:
    p = np.array([[0, 0], [10, 0], [10, 10], [0, 10]], dtype=float)
    (line,) = chained(np.stack([p, np.roll(p, -1, axis=0)], axis=1))
    assert len(line) == 5
    assert np.allclose(line[0], line[-1])


def test_lines_end_where_three_meet() -> None:
    bits = np.array([[[0, 0], [5, 0]], [[5, 0], [5, 5]], [[5, 0], [9, 3]]], dtype=float)
    assert sorted(len(line) for line in tidy(bits)) == [2, 2, 2]


def test_nothing_gives_nothing() -> None:
    assert tidy(np.empty((0, 2, 2))) == ()
