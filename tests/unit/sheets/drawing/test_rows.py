"""Dimension lines in rows."""

from __future__ import annotations

import pytest

from fitwright.sheets.drawing.rows import Ask, ranged


def test_a_chain_lies_in_one_row_and_the_whole_outside() -> None:
    places = ranged([Ask(0, 90, 12), Ask(0, 30, 12), Ask(30, 60, 12), Ask(60, 90, 12)])
    assert [p.row for p in places] == [1, 0, 0, 0]
    assert [p.middle for p in places] == pytest.approx([45, 15, 45, 75])


def test_a_short_span_has_its_text_and_arrows_outside() -> None:
    (place,) = ranged([Ask(10, 14, 12)])
    assert place.outward
    assert place.middle > 14 + 6


def test_a_text_slides_away_from_an_extension_line() -> None:
    long, short = Ask(0, 100, 12), Ask(50, 180, 12)
    first, second = ranged([long, short])
    assert (first.row, second.row) == (0, 1)
    assert abs(first.middle - 50) >= 6
    assert second.middle == pytest.approx(115)
