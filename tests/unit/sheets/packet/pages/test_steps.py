from __future__ import annotations

import pytest

from fitwright.sheets.drawing import A4
from fitwright.sheets.packet.model import Page
from fitwright.sheets.packet.pages.arranging import arrangement_drawing
from fitwright.sheets.packet.pages.finishing import finish_page
from fitwright.sheets.packet.pages.schedule import begun, schedule_page
from fitwright.sheets.packet.pages.steps import steps_page
from tests.unit.sheets.packet.jobs import of_text, stand
from tests.unit.sheets.packet.test_contents import DAY


@pytest.fixture(scope="module")
def pages() -> dict[str, Page]:
    """The boot stand's finish sheet, schedule and steps."""
    assessment = stand()
    whole = arrangement_drawing(assessment, A4, DAY)
    schedule = begun(assessment, whole)
    finish = finish_page(assessment)
    assert finish is not None
    return {
        "finish": finish,
        "schedule": schedule_page(schedule),
        "steps": steps_page(assessment, whole, schedule),
    }


def test_every_step_has_a_card_with_something_to_tick(pages: dict[str, Page]) -> None:
    cards = pages["steps"].content["steps"]
    assert [card["number"] for card in cards] == [str(k) for k in range(1, len(cards) + 1)]
    assert all(card["checks"] or card["numbers"] for card in cards)
    assert cards[0]["title"] == "Buy and fetch"
    assert cards[-1]["title"] == "Deliver and set up"


def test_the_bend_card_has_its_picture_numbers_and_fields(pages: dict[str, Page]) -> None:
    card = next(card for card in pages["steps"].content["steps"] if card["title"].startswith("Bend A1"))
    assert card["picture"] in pages["steps"].pictures
    assert card["sheet"] == "Bend sheet: hoop"
    assert [one["what"] for one in card["readings"]] == ["bend 1", "bend 2"]


def test_rags_are_told_where_oil_is_put_on_and_nowhere_else(pages: dict[str, Page]) -> None:
    told = {c["title"] for c in pages["steps"].content["steps"] if any("Oily rags heat" in w for w in c["cautions"])}
    assert told
    assert all(title.startswith("Oil") for title in told)


def test_the_schedule_begins_on_the_day_after_the_sheets_are_made_and_says_that_it_is_late(
    pages: dict[str, Page],
) -> None:
    # made on Tuesday 5 January 2027, which is the day it is due
    said = " ".join(pages["schedule"].content["said"])
    assert "Begun on Wednesday 6 January 2027 by one person" in said
    assert "days too late" in said
    assert "no order of work is done earlier" in said


def test_bars_show_every_step(pages: dict[str, Page]) -> None:
    notes = [n.text for d in pages["schedule"].pictures.values() for v in d.views for n in v.notes]
    numbers = {card["number"] for card in pages["steps"].content["steps"]}
    assert numbers <= {note.split()[0] for note in notes}
    assert {"Tu", "Sa", "Su"} <= set(notes)


def test_bars_stay_on_their_picture(pages: dict[str, Page]) -> None:
    for drawing in pages["schedule"].pictures.values():
        points = [stroke.points for view in drawing.views for stroke in view.strokes]
        assert max(float(p[:, 0].max()) for p in points) <= drawing.paper.width
        assert min(float(p[:, 0].min()) for p in points) >= 0.0


def test_the_finish_sheet_has_coats_tins_and_the_table_of_dew(pages: dict[str, Page]) -> None:
    content = pages["finish"].content
    assert [row[2] for row in content["coats"]["rows"]] == [
        "primer",
        "enamel",
        "enamel",
        "boiled linseed oil",
        "boiled linseed oil",
    ]
    assert {row[0] for row in content["tins"]["rows"]} == {"primer", "enamel", "boiled linseed oil"}
    # 20 C and 50 %: dew point 9.3 C, steel at least 12.3 C
    row = next(row for row in content["dew"]["rows"] if row[0] == "20 °C")
    assert row[3] == "12 °C"


def test_a_piece_of_bought_things_alone_has_no_finish_sheet() -> None:
    text = """
job: {name: Hooks, unit: mm}
stock: {tube: round tube 32 x 2}
parts: {hook: {fitting: coat hook, at: [0, 0, 1000]}}
"""
    assert finish_page(of_text(text)) is None
