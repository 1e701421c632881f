"""All lists in one workbook, a sheet each."""

from __future__ import annotations

import io
import re
from typing import TYPE_CHECKING

from fitwright.sheets.lists.listing import Cell, Column, Listing

if TYPE_CHECKING:
    from collections.abc import Sequence

    from openpyxl.cell import Cell as SheetCell
    from openpyxl.worksheet.worksheet import Worksheet

LONGEST_CELL = 32767  # letters that a cell holds (ECMA-376 part 1, 18.3.1.4, as spreadsheet programs limit it)


def as_workbook(listings: Sequence[Listing]) -> bytes:
    """An XLSX workbook: headings frozen and bold, columns as wide as they need, numbers as numbers, text as text."""
    from openpyxl import Workbook

    book = Workbook()
    book.remove(book.worksheets[0])
    for listing in listings:
        _fill(book.create_sheet(listing.title), listing)
    out = io.BytesIO()
    book.save(out)
    return out.getvalue()


def _fill(sheet: Worksheet, listing: Listing) -> None:
    from openpyxl.styles import Alignment, Border, Font, Side
    from openpyxl.utils import get_column_letter
    from openpyxl.worksheet.properties import PageSetupProperties

    for number, column in enumerate(listing.columns, 1):
        cell = _cell(sheet, 1, number, column.heading)
        cell.font = Font(bold=True)
        cell.border = Border(bottom=Side(style="medium"))
        cell.alignment = Alignment(wrap_text=True, vertical="bottom")
        sheet.column_dimensions[get_column_letter(number)].width = column.width
    for line, row in enumerate(listing.rows, 2):
        for number, (column, value) in enumerate(zip(listing.columns, row, strict=True), 1):
            _value(_cell(sheet, line, number, value), column)
    sheet.freeze_panes = "A2"
    sheet.print_title_rows = "1:1"
    sheet.page_setup.orientation = "landscape"
    sheet.page_setup.fitToHeight = 0
    sheet.sheet_properties.pageSetUpPr = PageSetupProperties(fitToPage=True)


def _cell(sheet: Worksheet, line: int, number: int, value: Cell) -> SheetCell:
    """A cell whose text stays text, whatever it begins with."""
    from openpyxl.cell import Cell as SheetCell

    cell = sheet.cell(line, number)
    assert isinstance(cell, SheetCell)
    cell.value = printable(value) if isinstance(value, str) else value
    if isinstance(value, str):
        cell.data_type = "s"
    return cell


def _value(cell: SheetCell, column: Column) -> None:
    from openpyxl.styles import Alignment

    cell.alignment = Alignment(wrap_text=cell.data_type == "s", vertical="top")
    if column.money:
        cell.number_format = "0.00"


def printable(text: str) -> str:
    """Without the control characters that XML 1.0 does not admit (section 2.2), and no longer than a cell holds."""
    return re.sub(r"[\x00-\x08\x0b\x0c\x0e-\x1f\ufffe\uffff\ud800-\udfff]", "", text)[:LONGEST_CELL]
