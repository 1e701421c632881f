from __future__ import annotations

from fitwright.sheets.packet.cautioning import OWN, cautions_of, conditions, unchecked
from tests.unit.sheets.packet.jobs import of_text, plain, stand

STAINLESS = """
job: {name: Rail, unit: mm}
stock: {tube: round tube 32 x 2 stainless 304}
parts:
  rail: {stock: tube, path: [[0, 0, 0], [700, 0, 0]], ends: free}
"""
BOARD = """
job: {name: Board, unit: mm}
stock: {plank: board 20 x 95 oak}
parts:
  plank: {stock: plank, path: [[0, 0, 0], [700, 0, 0]], ends: free}
"""


def test_only_what_applies_is_cautioned() -> None:
    headings = {caution.heading for caution in cautions_of(plain())}
    assert {"Fire watch", "Solvents and the arc", "Eyes and ears"} <= headings
    assert not headings & {"Hexavalent chromium", "Oily rags", "Wheels", "Wood dust and saws", "Lifting", "Bender"}


def test_the_jobs_own_cautions_come_first() -> None:
    first, *others = cautions_of(stand())
    assert first.text == "Keep a hand's breadth from the boiler"
    assert {"Oily rags", "Wheels", "Loose shelves", "Bender"} <= {caution.heading for caution in others}


def test_words_that_ask_for_a_check_are_left_to_the_findings() -> None:
    text = BOARD.replace("stock:", "brief: {cautions: [wet, food contact, Wet paint on the door]}\nstock:", 1)
    assert [one.text for one in cautions_of(of_text(text)) if one.heading == OWN] == ["Wet paint on the door"]


def test_stainless_brings_chromium_with_its_clause() -> None:
    (chromium,) = [one for one in cautions_of(of_text(STAINLESS)) if one.heading == "Hexavalent chromium"]
    # 29 CFR 1910.1026(c): permissible exposure limit 5 micrograms per cubic metre; (b): action level 2.5
    assert "5 micrograms" in chromium.text
    assert "2.5" in chromium.text
    assert "1910.1026" in chromium.source


def test_wood_alone_needs_no_fire_watch() -> None:
    assert conditions(of_text(BOARD)) == {"timber"}
    assert "Fire watch" not in {caution.heading for caution in cautions_of(of_text(BOARD))}


def test_every_caution_says_where_it_comes_from() -> None:
    for caution in cautions_of(stand()):
        assert caution.source
        assert (
            "1910" in caution.source
            or "practice" in caution.source
            or "memory" in caution.source
            or (caution.source == "the job file")
        )


def test_a_surveyed_place_is_checked_and_an_unknown_one_is_not() -> None:
    assert "fit in its place" in unchecked(plain())
    assert "fit in its place" not in unchecked(stand())
