"""Readings written into a job file and taken out: nothing else of the text changes."""

from __future__ import annotations

from datetime import date

import pytest

from fitwright.web.errors import NotThere
from fitwright.web.pages.readings.writing import with_reading, without_reading

DAY = date(2027, 2, 3)
TEXT = """\
job: {name: Frame, unit: mm}   # a comment
parts: {}
readings:
  - {of: bend 1 of A1, is: 91.2}   # cold
  - {of: width of the piece, is: 600}
finish: {steel: black}
"""


def test_a_reading_goes_to_the_end_of_the_list() -> None:
    text = with_reading(TEXT, {"of": "twist of hoop", "is": "1.5", "within": "", "note": "on the saw"}, DAY)
    added = "  - {of: twist of hoop, is: 1.5, when: 2027-02-03, note: on the saw}\n"
    assert text == TEXT.replace("is: 600}\n", f"is: 600}}\n{added}")


def test_a_list_is_begun_where_there_is_none() -> None:
    text = with_reading("job: {name: F}\n", {"of": "bend 1 of A1", "is": "90"}, DAY)
    assert text.splitlines() == ["job: {name: F}", "readings:", "  - {of: bend 1 of A1, is: 90, when: 2027-02-03}"] or (
        "of: bend 1 of A1, is: 90, when: 2027-02-03" in text
    )


def test_one_is_taken_out_with_its_comment() -> None:
    text = without_reading(TEXT, "0", "bend 1 of A1")
    assert text == TEXT.replace("  - {of: bend 1 of A1, is: 91.2}   # cold\n", "")
    assert "readings" in without_reading(text, "0", "width of the piece")


@pytest.mark.parametrize("place", [0, 1])
def test_out_of_brackets_too(place: int) -> None:
    flow = "job: {name: F}\nreadings: [{of: bend 1 of A1, is: 9}, {of: width of the piece, is: 6}]\n"
    of = ("bend 1 of A1", "width of the piece")
    left = without_reading(flow, str(place), of[place])
    assert of[place] not in left
    assert of[1 - place] in left


@pytest.mark.parametrize(("number", "of"), [("0", "width of the piece"), ("7", "bend 1 of A1"), ("x", "bend 1 of A1")])
def test_another_one_stands_there_now(number: str, of: str) -> None:
    with pytest.raises(NotThere):
        without_reading(TEXT, number, of)
