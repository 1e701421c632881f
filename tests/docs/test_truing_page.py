"""docs/truing.md is kept true: its readings are read, its answers are given, its words are those that there are."""

from __future__ import annotations

import re
from pathlib import Path

from fitwright.job.readings import EXAMPLES, parse_of
from fitwright.sheets.truing_told import truing_told
from fitwright.truing.doubting import QUESTIONED
from fitwright.truing.precision import precisions
from tests.story.test_first_hoop import FIRST, TOUCHED, WELDED, after

PAGE = (Path(__file__).parents[2] / "docs" / "truing.md").read_text(encoding="utf-8")
BLOCKS = re.findall(r"```yaml\n(.*?)```", PAGE, re.DOTALL)


def test_its_readings_are_those_of_the_story() -> None:
    assert [line.strip() for line in BLOCKS[0].splitlines()[1:]] == [line.strip() for line in FIRST.splitlines()]
    assert all(line.strip() in TOUCHED for line in BLOCKS[1].splitlines())
    assert all(line.strip() in WELDED for line in BLOCKS[2].splitlines())


def test_what_the_first_readings_answer() -> None:
    assessment = after(FIRST)
    assert assessment.truing is not None
    told = truing_told(assessment, assessment.truing, assessment.changes)
    assert any(one.words.startswith("Open bend 1 of hoop 1 by 1.1°, from 91.1° to 90.0°") for one in told.touches)
    assert any((one.old, one.new) == ("91.0°", "90.0°") and "hoop 2: bend 1" in one.what for one in told.changes)


def test_the_numbers_that_change_are_on_the_page() -> None:
    assessment = after(TOUCHED)
    assert assessment.truing is not None
    told = truing_told(assessment, assessment.truing, assessment.changes)
    for sheet, mark, old, new in re.findall(r"\| ([a-z ]+) \| (\w+) \| [^|]+ \| ~~([^~]+)~~ \| ([^|]+) \|", PAGE):
        found = [one for one in told.changes if (one.sheet, one.mark, one.old) == (sheet, mark, old)]
        assert any(one.new.rstrip('+-"') == new.strip() for one in found), (mark, [one.new for one in found])


def test_every_word_is_on_the_page_and_means_something() -> None:
    table = re.findall(r"^\| `([^`]+)` \|", PAGE, re.MULTILINE)
    assert {parse_of(words).quantity for words in table} == {parse_of(words).quantity for words in EXAMPLES}  # type: ignore[union-attr]


def test_its_precisions_are_those_used() -> None:
    usual = precisions()
    for kind, words in (
        ("length", "0.4 mm"),
        ("length_per_metre", "0.3 mm a metre"),
        ("opening", "0.25 mm"),
        ("gap", "0.05 mm"),
    ):
        assert f"{usual[kind].value:g}" == words.split()[0]
        assert words in PAGE
    assert QUESTIONED == 4.0
