from __future__ import annotations

import pytest

from fitwright.mechanics.shrinkage import ShrinkageError, arc_for, arc_time, heat_input, process_called


@pytest.mark.parametrize(("words", "name"), [("MIG", "MIG"), (" gmaw", "MIG"), ("TIG", "TIG"), ("MMA", "stick")])
def test_a_process_is_known_by_its_usual_names(words: str, name: str) -> None:
    assert process_called(words).name == name


def test_an_unknown_process_lists_what_is_accepted() -> None:
    with pytest.raises(ShrinkageError, match="'laser' is not known: write one of MIG, TIG, stick"):
        process_called("laser")


def test_settings_lie_between_the_rows_of_the_table() -> None:
    assert arc_for("MIG", 1.6).current < arc_for("MIG", 2.0).current < arc_for("MIG", 2.3).current
    assert arc_for("MIG", 0.5) == arc_for("MIG", 1.0)


def test_heat_grows_with_the_section_once_it_slows_the_hand() -> None:
    arc = arc_for("MIG", 2.0)
    assert heat_input(arc, 1.0) == heat_input(arc, 2.0)
    assert heat_input(arc, 20.0) == pytest.approx(2 * heat_input(arc, 10.0))


def test_heat_is_power_over_speed() -> None:
    arc = arc_for("TIG", 1.6)
    assert heat_input(arc, 1.0) == pytest.approx(0.6 * 63 * 11 / 2.0)
    assert arc_time(arc, 1.0, 100.0) == pytest.approx(50.0)


@pytest.mark.parametrize("wrong", [0.0, -1.0, float("nan")])
def test_nothing_to_weld_is_refused(wrong: float) -> None:
    with pytest.raises(ShrinkageError):
        arc_for("MIG", wrong)
    with pytest.raises(ShrinkageError):
        heat_input(arc_for("MIG", 2.0), wrong)
