"""Readings in words: signs, units, what is left out."""

from __future__ import annotations

import pytest

from fitwright.sheets.packet.pages.truing import truing_page
from fitwright.sheets.truing_told import change_told, print_truing, truing_told
from fitwright.truing import Changed
from fitwright.units import Style
from tests.unit.truing.samples import rack, read


def test_a_number_that_changes_in_both_units() -> None:
    one = Changed("cut", "D1", "rail: cut length", 600.0, 603.0, "why")
    assert (change_told(one, Style.metric()).old, change_told(one, Style.metric()).new) == ("600.0 mm", "603.0 mm")
    angle = Changed("bend", "A1", "bend to", None, 1.5, "why", angle=True)
    assert (change_told(angle, Style.metric()).old, change_told(angle, Style.metric()).new) == ("", "85.9°")


def test_what_was_read_beside_what_was_asked() -> None:
    assessment = read("bend 1 of hoop 1: 91.2", "height of foot 1: 0", "paint thickness: 80 µm")
    assert assessment.truing is not None
    told = truing_told(assessment, assessment.truing, ())
    bend, foot, paint = told.readings
    assert (bend.asked, bend.read, bend.off) == ("90.0°", "91.2°", "+1.2°")
    assert bend.now.startswith("91.")
    assert (foot.asked, foot.off) == ("", "")
    assert paint.read == "80 µm"


def test_a_gap_beside_it_is_not_held_against_where_it_is_drawn() -> None:
    """It can stand anywhere between the walls: only both gaps together say something, the one above it by itself."""
    assessment = read("gap left: 14", "gap right: 12", "gap above: 401")
    assert assessment.truing is not None
    left, right, above = truing_told(assessment, assessment.truing, ()).readings
    assert (left.asked, left.off, left.now) == ("", "", "")
    assert (right.asked, right.off, right.now) == ("", "", "")
    assert (above.asked, above.off) == ("400.0 mm", "+1.0 mm")


def test_nothing_to_do_says_so() -> None:
    assessment = read("width of the piece: 600")
    assert assessment.truing is not None
    told = truing_told(assessment, assessment.truing, ())
    assert told.lead[-1].startswith("Leave it")


def test_it_prints_for_a_terminal(capsys: pytest.CaptureFixture[str]) -> None:
    assessment = read("bend 1 of hoop 1: 91.2", "bend 9 of hoop 1: 90")
    assert assessment.truing is not None
    print_truing(truing_told(assessment, assessment.truing, ()))
    said = capsys.readouterr().out
    assert "bend 1 of hoop 1" in said
    assert "? bend 9 of hoop 1" in said
    assert "1. Open bend 1 of hoop 1" in said


def test_the_sheet_is_there_once_something_is_read() -> None:
    assert truing_page(rack()) is None
    page = truing_page(read("bend 1 of hoop 1: 91.2"))
    assert page is not None
    assert page.content["picture"] == "piece"
    assert page.content["touches"][0]["need"] == "Needed."
