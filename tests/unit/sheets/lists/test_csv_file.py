from __future__ import annotations

import csv
import io
from decimal import Decimal

from hypothesis import given
from hypothesis import strategies as st

from fitwright.sheets.lists import Column, Listing, as_csv


def _read(text: str) -> list[list[str]]:
    return list(csv.reader(io.StringIO(text, newline="")))


def test_values_are_written_plainly() -> None:
    listing = Listing(
        "x",
        "X",
        (Column("a"), Column("b"), Column("c")),
        (
            ("one, two", 1.5, None),
            ("", Decimal("6.50"), 3),
        ),
    )
    assert as_csv(listing) == 'a,b,c\r\n"one, two",1.5,\r\n,6.50,3\r\n'


@given(st.lists(st.tuples(st.text(st.characters(codec="utf-8", exclude_characters="\0")), st.integers()), max_size=5))
def test_any_text_comes_back(rows: list[tuple[str, int]]) -> None:
    listing = Listing("x", "X", (Column("a"), Column("b")), tuple(rows))
    assert _read(as_csv(listing))[1:] == [[text, str(number)] for text, number in rows]
