from __future__ import annotations

import io
from decimal import Decimal
from typing import Any

from openpyxl import load_workbook

from fitwright.sheets.lists import Column, Listing, as_workbook
from fitwright.sheets.lists.workbook import LONGEST_CELL, printable

LISTING = Listing(
    "buying",
    "Buying",
    (Column("what", 30), Column("quantity", 9), Column("price", 12, money=True)),
    (("=1+1", 2, Decimal("6.50")), ("-tube\x07", 3, None)),
)


def _sheet() -> Any:
    return load_workbook(io.BytesIO(as_workbook([LISTING]))).worksheets[0]


def test_the_heading_is_bold_and_stays_in_sight() -> None:
    sheet = _sheet()
    assert sheet.title == "Buying"
    assert [cell.value for cell in sheet[1]] == ["what", "quantity", "price"]
    assert all(cell.font.bold for cell in sheet[1])
    assert sheet.freeze_panes == "A2"


def test_columns_are_as_wide_as_said() -> None:
    assert [_sheet().column_dimensions[letter].width for letter in "ABC"] == [30, 9, 12]


def test_text_stays_text_whatever_it_begins_with() -> None:
    cell = _sheet()["A2"]
    assert (cell.value, cell.data_type) == ("=1+1", "s")


def test_numbers_are_numbers_and_money_has_cents() -> None:
    sheet = _sheet()
    assert sheet["B2"].value == 2
    assert float(sheet["C2"].value) == 6.5
    assert sheet["C2"].number_format == "0.00"
    assert sheet["C3"].value is None


def test_letters_that_xml_does_not_admit_are_left_out() -> None:
    assert _sheet()["A3"].value == "-tube"
    assert printable("a\x00b\ud800c\n") == "abc\n"
    assert len(printable("x" * (LONGEST_CELL + 5))) == LONGEST_CELL


def test_one_sheet_for_each_list() -> None:
    other = Listing("other", "Other", (Column("a"),), ())
    book = load_workbook(io.BytesIO(as_workbook([LISTING, other])))
    assert book.sheetnames == ["Buying", "Other"]
