from __future__ import annotations

from datetime import date

from fitwright.sheets.drawing import A4
from fitwright.sheets.packet.pages.arranging import arrangement_drawing
from fitwright.sheets.packet.pages.place import place_page
from tests.demos import assessed
from tests.unit.sheets.packet.jobs import plain, stand

DAY = date(2027, 1, 5)


def test_no_survey_is_no_page() -> None:
    assessment = plain()
    assert place_page(assessment, arrangement_drawing(assessment, A4, DAY)) is None


def test_gaps_are_those_of_the_fit() -> None:
    assessment = stand()
    page, fit = place_page(assessment, arrangement_drawing(assessment, A4, DAY)), assessment.fit
    assert page is not None
    assert fit is not None
    gaps = {gap.side: gap for gap in fit.gaps}
    rows = {row[0]: row for row in page.content["gaps"]["rows"]}
    assert set(rows) == {"left", "right", "back"}  # above and in front no gap is wanted
    for side, row in rows.items():
        assert row[1] == assessment.job.style.length(gaps[side].value)
        assert row[2] == assessment.job.style.length(gaps[side].height)


def test_the_survey_and_the_neighbours_are_told() -> None:
    assessment = stand()
    page = place_page(assessment, arrangement_drawing(assessment, A4, DAY))
    assert page is not None
    assert page.content["measured"] == [
        "wide: 702.0 mm at 0.0 mm up, 700.0 mm at 1050.0 mm up, 704.0 mm at 2100.0 mm up",
        "deep: 420.0 mm",
        "high: 2100.0 mm",
        "leaning in at the top: right 3.0 mm",
    ]
    assert page.content["neighbours"]["rows"] == [["boiler", "right", "1200.0 mm", "300.0 mm", ""]]
    assert list(page.pictures) == ["front", "plan"]


def test_what_else_was_surveyed_is_numbered_and_told() -> None:
    assessment = assessed("coat-rail")
    page = place_page(assessment, arrangement_drawing(assessment, A4, DAY))
    assert page is not None
    rows = {row[1]: row for row in page.content["things"]["rows"]}
    style, fit = assessment.job.style, assessment.fit
    assert fit is not None
    assert rows["socket"][0] == "1"
    assert rows["socket"][2] == style.length(fit.things[0].value)
    assert "from the front" in rows["socket"][6]
    assert rows["cloakroom door"][6] == "opens 170° of 170°"
    assert any(said.startswith("For level on the floor as it is") for said in page.content["notes"])
    assert any(said.startswith("floor: 0.0 mm at 0.0 mm, 0.0 mm") for said in page.content["measured"])


def test_how_shelves_come_out_is_told() -> None:
    assessment = stand()
    page = place_page(assessment, arrangement_drawing(assessment, A4, DAY))
    assert page is not None
    assert "To take out shelf: slide it out to the front." in page.content["notes"]
