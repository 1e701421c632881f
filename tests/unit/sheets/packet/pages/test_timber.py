from __future__ import annotations

import pytest

from fitwright.sheets.drawing.model import LinearDimension
from fitwright.sheets.packet.model import Page
from fitwright.sheets.packet.pages.timber import timber_pages
from tests.unit.making.test_decking import deck
from tests.unit.sheets.packet.jobs import of_text, stand


@pytest.fixture(scope="module")
def shelf() -> Page:
    """The boot stand's shelf: 520 x 330, boards of 95 with even gaps, on two battens."""
    (page,) = timber_pages(stand())
    return page


def test_boards_are_told_for_one_and_for_all(shelf: Page) -> None:
    rows = {row[1][0]: row for row in shelf.content["boards"]["rows"]}
    assert rows["slat"][2:] == ["520.0 mm", "95.0 mm", "20.0 mm", "3", "3"]
    assert rows["batten"][2:] == ["330.0 mm", "45.0 mm", "20.0 mm", "2", "2"]


def test_the_spacer_is_the_gap_that_comes_out(shelf: Page) -> None:
    # three boards of 95 over 330 leave two gaps of 22.5; 20 was wanted
    assert shelf.content["notes"][0].startswith("Spacer for the gaps: 22.5 mm.")


def test_the_picture_is_dimensioned(shelf: Page) -> None:
    view = shelf.pictures["panel"].views[0]
    shown = sorted(round(d.value, 1) for d in view.dimensions if isinstance(d, LinearDimension))
    # gap, batten's width and place of the two, board, panel across and along
    assert shown == [22.5, 45.0, 60.0, 95.0, 330.0, 415.0, 520.0]


def test_battens_behind_are_dashed(shelf: Page) -> None:
    view = shelf.pictures["panel"].views[0]
    assert sum(stroke.kind.value == "hidden" for stroke in view.strokes) == 2


def test_a_glued_top_says_how_wide_to_rip() -> None:
    text = """
job: {name: Top, unit: mm}
stock: {top: board 30 x 140 oak}
parts: {top: {solid: top, from: [0, 0, 700], to: [800, 500, 700], along: x}}
"""
    (page,) = timber_pages(of_text(text))
    assert "Rip the boards from 140.0 mm to 125.0 mm before gluing up." in page.content["notes"]


def test_a_panel_that_stands_is_seen_on_its_face() -> None:
    text = """
job: {name: Back, unit: mm}
stock: {ply: plywood 12 birch}
parts: {back: {sheet: ply, from: [0, 100, 0], to: [800, 100, 500], along: z}}
"""
    (page,) = timber_pages(of_text(text))
    view = page.pictures["panel"].views[0]
    shown = sorted(round(d.value) for d in view.dimensions if isinstance(d, LinearDimension))
    assert shown == [500, 800]
    assert page.content["what"].startswith("back: sheet, 500.0 mm x 800.0 mm x 12.0 mm")


def test_slats_too_narrow_for_a_mark_have_it_once_beside() -> None:
    bed = """
job: {name: Bed, unit: mm}
stock: {slat: board 20 x 70 oak}
parts:
  slats: {slats: slat, from: [0, 0, 300], to: [1300, 1880, 300], along: x, gap: 50}
"""
    (page,) = timber_pages(of_text(bed))
    view = page.pictures["panel"].views[0]
    mark = page.content["boards"]["rows"][0][0]
    assert [one.text for one in view.marks] == [mark]
    assert mark not in [note.text for note in view.notes]


def test_screws_are_drawn_and_told(shelf: Page) -> None:
    view = shelf.pictures["panel"].views[0]
    assert len(view.arcs) == 12
    rows = {row[0]: row[1] for row in shelf.content["facts"]["rows"]}
    assert rows["spacer blocks, 2 of them"] == "22.5 mm"
    assert rows["screws 4 x 35"] == "12"


def test_spare_boards_are_told(shelf: Page) -> None:
    assert any("1 spare of 520.0 mm" in note for note in shelf.content["notes"])


def test_the_spacer_is_as_thick_on_all_of_the_sheet() -> None:
    """Five boards of 2 1/2 in 13 1/8 leave 5/32 between them: finer than the sixteenths of the job."""
    shelves = """
job: {name: Shelf, unit: inch}
stock: {slat: lumber 1x3 cedar, batten: lumber 1x2 cedar}
parts:
  shelf:
    slats: slat
    from: [0, 0, 12]
    to: [40, 13 1/8, 12]
    along: x
    gap: 1/2
    battens: {stock: batten, count: 3, inset: 3}
"""
    (page,) = timber_pages(of_text(shelves))
    rows = {row[0]: row[1] for row in page.content["facts"]["rows"]}
    assert rows["spacer blocks, 2 of them"] == '5/32"'
    assert sum('5/32"' in line for line in page.content["order"]) == 1


def test_a_page_says_whether_it_is_of_timber_or_of_sheet_metal() -> None:
    titles = [[page.title for page in timber_pages(one)] for one in (deck("rests", "plywood 18 birch"), deck())]
    assert titles == [["Timber: top"], ["Sheet: top"]]
