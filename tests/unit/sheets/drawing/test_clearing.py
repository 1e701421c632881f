"""Keeping text clear."""

from __future__ import annotations

import numpy as np
import pytest

from fitwright.sheets.drawing.clearing import apart, broken, crossed, overlapping
from fitwright.sheets.drawing.lettering import box, shortened, width

SQUARE = np.array([[2.0, -1], [4, -1], [4, 1], [2, 1]])


def test_a_line_is_broken_where_a_text_stands() -> None:
    left, right = broken(np.array([[0.0, 0], [10, 0]]), SQUARE[None])
    assert left.ravel().tolist() == pytest.approx([0, 0, 2, 0])
    assert right.ravel().tolist() == pytest.approx([4, 0, 10, 0])


def test_a_line_that_meets_nothing_stays_whole() -> None:
    line = np.array([[0.0, 3], [10, 3], [10, 9]])
    (same,) = broken(line, SQUARE[None])
    assert same is line


def test_turned_boxes() -> None:
    diamond = np.array([[0.0, -1], [1, 0], [0, 1], [-1, 0]])
    assert apart(diamond, diamond + 1.1)
    assert not apart(diamond, diamond + 0.9)
    assert overlapping(np.stack([diamond, diamond + 0.4, diamond + 5])) == [(0, 1)]


def test_a_line_through_a_box_is_found() -> None:
    assert crossed([np.array([[0.0, 0], [10, 0]]), np.array([[0.0, 2], [10, 2]])], SQUARE[None]) == [(0, 0)]


def test_widths_of_digits() -> None:
    # Adobe Font Metrics, Helvetica: digits are 556 wide, capitals 718 high
    assert width("0123456789", 7.18) == pytest.approx(55.6)
    assert np.ptp(box("00", (5, 5), 7.18)[:, 0]) == pytest.approx(11.12)


def test_shortened() -> None:
    assert shortened("short", 3.5, 100) == "short"
    cut = shortened("a very long title of a sheet", 3.5, 30)
    assert cut.endswith("…")
    assert width(cut, 3.5) <= 30
