"""Rows of cells in a CSV or XLSX file."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from pathlib import Path
from typing import Any

from fitwright.shop.records.errors import BadRows

LARGEST = 20_000_000
MOST_ROWS = 50_000
ENDINGS = "a file ending in .csv or .xlsx"


@dataclass(frozen=True)
class Cells:
    """One row: its number in the file, its cells, and whether numbers are written with a decimal comma."""

    number: int
    cells: tuple[Any, ...]
    comma: bool = False


@dataclass(frozen=True)
class Rows:
    """The headings and the rows below them that are not empty."""

    headings: tuple[str, ...]
    rows: tuple[Cells, ...]


def read_rows(file: Path) -> Rows:
    """The rows of a CSV or XLSX file. Raises BadRows for one that is neither, or too large."""
    _of_known_kind(file)
    try:
        if file.stat().st_size > LARGEST:
            raise BadRows(file.name, ((1, f"the file is larger than {LARGEST // 1_000_000} MB"),))
        found, comma = _xlsx(file) if file.suffix.lower() == ".xlsx" else _csv(file)
    except OSError as wrong:
        raise BadRows(file.name, ((1, f"the file cannot be read: {wrong.strerror or wrong}"),)) from None
    if not found:
        raise BadRows(file.name, ((1, "the file is empty: the first row names the columns"),))
    if len(found) > MOST_ROWS:
        raise BadRows(file.name, ((MOST_ROWS, f"there are more than {MOST_ROWS} rows: take them in by parts"),))
    width = max((k + 1 for k, cell in enumerate(found[0][1]) if not _empty(cell)), default=0)
    headings = tuple(str(cell or "").strip() for cell in found[0][1][:width])
    rows = tuple(Cells(number, cells[:width], comma) for number, cells in found[1:] if not all(map(_empty, cells)))
    return Rows(headings, rows)


def write_rows(file: Path, title: str, headings: Sequence[str], rows: Sequence[Sequence[Any]]) -> None:
    """Write a CSV (RFC 4180) or XLSX file; text stays text. Raises BadRows for another ending."""
    _of_known_kind(file, "written")
    try:
        file.write_bytes(_as_xlsx(title, headings, rows) if file.suffix.lower() == ".xlsx" else _as_csv(headings, rows))
    except OSError as wrong:
        raise BadRows(file.name, ((1, f"the file cannot be written: {wrong.strerror or wrong}"),), "written") from None


def _of_known_kind(file: Path, done: str = "taken in") -> None:
    if file.suffix.lower() not in (".csv", ".xlsx"):
        raise BadRows(file.name, ((1, f"{file.suffix or 'no ending'} is not known: give {ENDINGS}"),), done)


def _empty(cell: Any) -> bool:
    return cell is None or (isinstance(cell, str) and not cell.strip())


def _csv(file: Path) -> tuple[list[tuple[int, tuple[Any, ...]]], bool]:
    """Rows by line; a file with semicolons, as spreadsheets write where the comma divides decimals, is read so."""
    try:
        text = file.read_bytes().decode("utf-8-sig")
    except UnicodeDecodeError as wrong:
        raise BadRows(file.name, ((1, f"byte {wrong.start} is not UTF-8: save it as CSV UTF-8"),)) from None
    first = text.partition("\n")[0]
    divider = max(",;\t", key=first.count)
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=divider, strict=True)
    try:
        return list(_numbered(reader)), divider == ";"
    except csv.Error as wrong:
        raise BadRows(file.name, ((reader.line_num, f"this is not CSV: {wrong}"),)) from None


def _numbered(reader: Any) -> Iterator[tuple[int, tuple[Any, ...]]]:
    before = 0
    for row in reader:
        yield before + 1, tuple(row)
        before = reader.line_num


def _xlsx(file: Path) -> tuple[list[tuple[int, tuple[Any, ...]]], bool]:
    from zipfile import BadZipFile

    from openpyxl import load_workbook
    from openpyxl.utils.exceptions import InvalidFileException

    try:
        book = load_workbook(file, read_only=True, data_only=True)
        sheet = book.worksheets[0]
        rows = [(number, tuple(row)) for number, row in enumerate(sheet.iter_rows(values_only=True), 1)]
        book.close()
    except (BadZipFile, InvalidFileException, KeyError, ValueError, IndexError, EOFError) as wrong:
        raise BadRows(file.name, ((1, f"this is not an XLSX workbook: {wrong}"),)) from None
    return [row for row in rows if row[0] == 1 or not all(map(_empty, row[1]))], False


def _as_csv(headings: Sequence[str], rows: Sequence[Sequence[Any]]) -> bytes:
    out = io.StringIO()
    writer = csv.writer(out)
    writer.writerow(headings)
    writer.writerows([_written(cell) for cell in row] for row in rows)
    return out.getvalue().encode()


def _written(cell: Any) -> str:
    if isinstance(cell, bool):
        return "yes" if cell else "no"
    return "" if cell is None else repr(cell) if isinstance(cell, float) else str(cell)


def _as_xlsx(title: str, headings: Sequence[str], rows: Sequence[Sequence[Any]]) -> bytes:
    from openpyxl import Workbook
    from openpyxl.styles import Font

    book = Workbook()
    book.remove(book.worksheets[0])
    sheet = book.create_sheet(title)
    sheet.append(list(headings))
    for cell in sheet[1]:
        cell.font = Font(bold=True)
    for line, row in enumerate(rows, 2):
        for number, value in enumerate(row, 1):
            _fill(sheet.cell(line, number), value)
    sheet.freeze_panes = "A2"
    out = io.BytesIO()
    book.save(out)
    return out.getvalue()


def _fill(cell: Any, value: Any) -> None:
    """Text stays text, whatever it begins with; decimals go as text where a float would not hold them."""
    exact = isinstance(value, date | int | float) and not isinstance(value, bool)
    cell.value = value if exact or isinstance(value, Decimal) else _written(value) or None
    if isinstance(cell.value, str):
        cell.data_type = "s"
