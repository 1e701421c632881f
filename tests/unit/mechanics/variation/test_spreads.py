from __future__ import annotations

from dataclasses import fields

import pytest

from fitwright.mechanics.variation import SpreadError, Spreads, spread_notes, usual_spreads, with_spreads


def test_every_spread_has_words_a_unit_and_a_basis() -> None:
    notes = spread_notes()
    assert set(notes) == {field.name for field in fields(Spreads)}
    for note in notes.values():
        assert note.words
        assert note.unit in ("mm", "deg")
        assert note.basis.startswith(("common practice", "ISO"))


def test_angles_are_kept_in_radians() -> None:
    assert usual_spreads().weld_angle == pytest.approx(0.11 * 3.14159265 / 180)


def test_some_replaced() -> None:
    changed = with_spreads({"survey": 2.5, "tape": 0.0})
    assert (changed.survey, changed.tape) == (2.5, 0.0)
    assert changed.trim == usual_spreads().trim


def test_unknown_name_lists_those_known() -> None:
    with pytest.raises(SpreadError, match="bend_angle_setup"):
        with_spreads({"bend angle": 1.0})


@pytest.mark.parametrize("value", [-0.1, float("nan"), float("inf")])
def test_no_spread_below_nothing(value: float) -> None:
    with pytest.raises(SpreadError, match="survey"):
        with_spreads({"survey": value})
