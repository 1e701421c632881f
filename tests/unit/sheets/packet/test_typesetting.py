from __future__ import annotations

from datetime import date
from typing import Any

import pytest

from fitwright.sheets.drawing import Sketch
from fitwright.sheets.packet.model import Head, Page
from fitwright.sheets.packet.tables import table
from fitwright.sheets.packet.typesetting import TypesettingError, typeset
from fitwright.units import Style
from tests.unit.sheets.packet.jobs import texts

DAY = date(2027, 1, 5)
NASTY = '#panic("x") *_$ <b> @ref // [y] `z` \\u{41} "q" = h'
HEAD = Head("Shop packet", NASTY, "lengths in inches", "2027-01-05", "us-letter")


def _list(**more: Any) -> Page:
    rows = [("A1", NASTY, '9 3/8"')]
    told = table([("mark", "mark", None), ("what", "text", 3), ("length", "number", None)], rows, **more)
    return Page("listing", NASTY, {"tables": [told], "notes": [NASTY]})


def test_what_a_maker_writes_is_never_read_as_markup() -> None:
    (page,) = texts(typeset(HEAD, [_list()], DAY))
    assert page.count(NASTY) >= 3  # title, note and foot; in the table it may break over lines
    assert '9 3/8"' in page


def test_the_same_pages_and_date_give_the_same_bytes() -> None:
    assert typeset(HEAD, [_list()], DAY) == typeset(HEAD, [_list()], DAY)


def test_another_date_gives_another_packet() -> None:
    other = Head("Shop packet", NASTY, "lengths in inches", "2027-01-06", "us-letter")
    assert typeset(HEAD, [_list()], DAY) != typeset(other, [_list()], date(2027, 1, 6))


def test_every_page_says_which_of_how_many_it_is() -> None:
    pages = texts(typeset(HEAD, [_list(), _list(), _list()], DAY))
    assert [f"page {k} of 3" in page for k, page in enumerate(pages, 1)] == [True] * 3


def test_a_short_sheet_joins_the_one_before() -> None:
    joined = Page("listing", "Joined", _list().content, joins=True)
    assert len(texts(typeset(HEAD, [_list(), joined], DAY))) == 1


def test_long_tables_repeat_their_heading() -> None:
    rows = [(f"A{k}", "thing", "1") for k in range(90)]
    told = table([("mark", "mark", None), ("what", "text", 3), ("length", "number", None)], rows)
    pages = texts(typeset(HEAD, [Page("listing", "Long", {"tables": [told]})], DAY))
    assert len(pages) > 2
    assert all("mark what length" in page for page in pages)


def test_a_whole_drawing_turns_its_page() -> None:
    import io

    from pypdf import PdfReader

    sketch = Sketch(Style.metric()).line((0, 0), (100, 0)).text("seen", (50, 10))
    drawing = sketch.sheet(_landscape())
    pdf = typeset(Head("t", "j", "s", "d", "a4"), [Page("arrangement", "Drawing", {}, whole=drawing)], DAY)
    (page,) = PdfReader(io.BytesIO(pdf)).pages
    assert page.mediabox.width > page.mediabox.height
    assert "seen" in page.extract_text()


def _landscape() -> Any:
    from fitwright.sheets.drawing import A4

    return A4.turned()


def test_the_typesetters_own_words_are_kept() -> None:
    with pytest.raises(TypesettingError, match="could not be typeset"):
        typeset(HEAD, [Page("no such kind", "x", {})], DAY)


def test_letters_that_no_embedded_font_has_do_not_stop_it() -> None:
    page = Page("listing", "株式会社", {"tables": [], "notes": ["plain"]})
    assert "plain" in texts(typeset(HEAD, [page], DAY))[0]
