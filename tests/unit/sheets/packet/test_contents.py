from __future__ import annotations

from datetime import date

import pytest

from fitwright.assess import Assessment
from fitwright.sheets.drawing import A4, LETTER
from fitwright.sheets.packet.contents import LONGEST_FOOT, head_of, pages_of
from fitwright.sheets.packet.model import Page
from fitwright.sheets.packet.pages.arranging import arrangement_drawing
from tests.unit.sheets.packet.jobs import of_text, plain, stand

DAY = date(2027, 1, 5)


def _pages(assessment: Assessment) -> tuple[Page, ...]:
    return pages_of(assessment, arrangement_drawing(assessment, A4, DAY), lambda _: None)


def test_the_set_is_in_the_order_of_the_work() -> None:
    assert [page.title for page in _pages(stand())] == [
        "Cover",
        "General arrangement",
        "Parts list",
        "Buying list",
        "Cutting: round tube 32 x 2 mm",
        "Cutting: board 20 x 95 mm northern red oak",
        "Cutting: board 20 x 45 mm northern red oak",
        "Blocks for the bench",
        "Bend sheet: hoop",
        "Cope template: tie, start",
        "Bench set-ups",
        "Bench: hoop 1",
        "Bench: hoop 2",
        "Bench: the whole",
        "Welding",
        "Weld order",
        "Timber: shelf",
        "Finish",
        "Hardware list",
        "In its place",
        "Schedule",
        "Steps",
        "How it stands",
        "How likely it comes out right",
        "Checks",
        "Cautions",
    ]


def test_pages_with_nothing_to_say_are_left_out() -> None:
    titles = {page.title for page in _pages(plain())}
    assert not titles & {"Hardware list", "In its place", "Welding", "How it stands", "How likely it comes out right"}
    assert not any(title.startswith(("Bend sheet", "Timber")) for title in titles)


def test_the_steps_are_told_in_order() -> None:
    told: list[str] = []
    assessment = plain()
    pages_of(assessment, arrangement_drawing(assessment, A4, DAY), told.append)
    assert told == ["cover and lists", "cutting sheets", "bend sheets", "welding, timber, place"]


def test_each_set_up_that_is_drawn_is_told() -> None:
    told: list[str] = []
    pages_of(stand(), arrangement_drawing(stand(), A4, DAY), told.append)
    at = told.index("bend sheets")
    assert told[at + 1 : at + 4] == ["bench sheet: hoop 1", "bench sheet: the whole", "welding, timber, place"]


@pytest.mark.parametrize(("unit", "word"), [("inch", "inches"), ("mm", "millimetres"), ("cm", "centimetres")])
def test_the_foot_says_the_unit_and_who_decides(unit: str, word: str) -> None:
    text = f"""
job: {{name: Rail, unit: {unit}}}
stock: {{tube: round tube 32 x 2 mm}}
parts: {{rail: {{stock: tube, path: [[0, 0, 0], [30, 0, 0]], ends: free}}}}
"""
    head = head_of(of_text(text), LETTER, DAY)
    assert f"lengths in {word}" in head.said
    assert "local codes decide" in head.said
    assert (head.made, head.paper) == ("2027-01-05", "us-letter")


def test_a_long_name_is_cut_at_the_foot() -> None:
    text = """
job: {name: "%s", client: Somebody, unit: mm}
stock: {tube: round tube 32 x 2}
parts: {rail: {stock: tube, path: [[0, 0, 0], [700, 0, 0]], ends: free}}
""" % ("long name " * 7)
    head = head_of(of_text(text), A4, DAY)
    assert len(head.job) <= LONGEST_FOOT
