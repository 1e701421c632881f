"""Names and values as pages show them."""

from __future__ import annotations

from urllib.parse import unquote

import pytest

from fitwright.findings import Finding, Verdict
from fitwright.job.model import Dim
from fitwright.units import Style
from fitwright.web.words import FILTERS, anchor, comes_to, finding_key, plainly, sign, unbroken, verdict_class


def test_a_mixed_number_stays_on_one_line() -> None:
    assert unbroken('lay it 3 15/16" high, 14 or 1/2 off') == 'lay it 3\N{NO-BREAK SPACE}15/16" high, 14 or 1/2 off'


def test_names_of_the_file_are_words() -> None:
    assert plainly("caster_height") == "caster height"


@pytest.mark.parametrize(("text", "name"), [("Bend sheet: A1", "bend-sheet-a1"), ("½ × ß", "it"), ("", "it")])
def test_an_anchor_is_letters_digits_and_hyphens(text: str, name: str) -> None:
    assert anchor(text) == name


def test_every_verdict_has_a_sign_and_a_style_of_its_own() -> None:
    assert len({sign(verdict) for verdict in Verdict}) == len(Verdict)
    assert len({verdict_class(verdict) for verdict in Verdict}) == len(Verdict)
    assert verdict_class(Verdict.NEEDS_INPUT) == "needs-input"


def test_a_findings_name_in_an_address_is_one_part_of_it() -> None:
    found = Finding("space", "left/right", "gap: 1/2?", Verdict.HOLDS)
    key = finding_key(found)
    assert "/" not in key
    assert "?" not in key
    assert unquote(key) == "space:left/right:gap: 1/2?"


def test_a_length_comes_to_the_shops_fractions_and_a_count_to_itself() -> None:
    length = Dim("width", "31 1/2", 800.1, True, (), 3)
    count = Dim("shelves", "4", 4.0, False, (), 4)
    assert comes_to(length, Style.inch()) == '31 1/2"'
    assert comes_to(length, Style.metric()) == "800.0 mm"
    assert comes_to(count, Style.inch()) == "4"


def test_a_part_of_an_address_has_no_slash() -> None:
    assert FILTERS["part"]("a/b c") == "a%2Fb%20c"
