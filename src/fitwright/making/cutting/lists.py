"""The two lists of a quick cutting plan, as CSV text: what is wanted, and what it can be cut from."""

from __future__ import annotations

import csv
import io
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal, InvalidOperation
from difflib import get_close_matches
from typing import TypeVar

from fitwright.making.cutting.plan import CuttingPlan, Progress, plan_cuts
from fitwright.making.cutting.request import Bar, Cut, CuttingError, check
from fitwright.units import LengthError, Style, parse_length

CUT_COLUMNS = ("length", "quantity", "mark")
BAR_COLUMNS = ("length", "price", "on_hand", "name")
PARTS = {",": "a comma", ";": "a semicolon", "\t": "a tab"}
"""What may stand between the cells, and its name."""

MOST_PIECES = 100_000
"""A quantity above this is taken for a slip of the pen."""

Made = TypeVar("Made")


class ListError(CuttingError):
    """A list that cannot be read; the message has every mistake in it: file, line, column, what is accepted."""


@dataclass(frozen=True)
class Row:
    """One line of a list: its file and line number, its cells by column, and the unit of bare lengths."""

    file: str
    line: int
    cells: Mapping[str, str]
    unit: str

    def wrong(self, column: str, accepted: str) -> ListError:
        """What is wrong with a cell, in words."""
        value = self.cells.get(column, "")
        told = f"{value!r} is not accepted" if value else "is empty"
        return ListError(f"{self.file}, line {self.line}, column {column}: {told}; give {accepted}")

    def length(self) -> float:
        """The length [mm], above nought."""
        try:
            value = parse_length(self.cells.get("length", ""), self.unit)
        except LengthError:
            value = 0.0
        if value <= 0:
            raise self.wrong(
                "length", f"""a length above 0 such as 9 3/8 in, 5' 3 1/2", 238.1 mm, or bare {self.unit}"""
            )
        return value

    def whole(self, column: str, least: int) -> int:
        """A whole number."""
        text = self.cells.get(column, "")
        value = int(text) if text.isascii() and text.isdecimal() and len(text) < 10 else -1
        if not least <= value <= MOST_PIECES:
            raise self.wrong(column, f"a whole number from {least} to {MOST_PIECES}")
        return value

    def money(self, column: str) -> Decimal:
        """A price; blank is nought."""
        text = self.cells.get(column, "") or "0"
        try:
            value = Decimal(text)
        except InvalidOperation:
            value = Decimal(-1)
        if not (value.is_finite() and 0 <= value < 10**9 and -6 <= int(value.as_tuple().exponent) <= 9):
            raise self.wrong(column, "a price of 0 or more such as 18.50, or nothing for 0")
        return value


def read_cuts(text: str | bytes, unit: str = "mm", file: str = "the cut list") -> tuple[Cut, ...]:
    """The cuts of a list with columns length, quantity (1 where blank) and mark.

    Raises ListError with all its mistakes at once.

    >>> read_cuts("length,quantity,mark\\n9 3/8 in,2,A1\\n238.1 mm,1,")
    (Cut(mark='A1', length_mm=238.125, quantity=2), Cut(mark='', length_mm=238.1, quantity=1))
    """
    return _read(text, unit, file, CUT_COLUMNS, ("length",), _cut)


def read_bars(text: str | bytes, unit: str = "mm", file: str = "the stock list") -> tuple[Bar, ...]:
    """The bars of a list with columns length, price (0 where blank), on_hand (blank: buy any number) and name.

    Raises ListError with all its mistakes at once.

    >>> read_bars("name,length,price,on_hand\\nfull bar,6 m,31.50,\\n,1200,,1")[1]
    Bar(label='1200', length=1200.0, price=Decimal('0'), on_hand=1, offcut=True)
    """
    return _read(text, unit, file, BAR_COLUMNS, ("length",), _bar)


def plan_from_csv(
    cuts: str | bytes,
    bars: str | bytes,
    unit: str = "mm",
    *,
    names: tuple[str, str] = ("the cut list", "the stock list"),
    kerf: float = 0.0,
    end_trim: float = 0.0,
    seconds: float = 10.0,
    progress: Callable[[Progress], bool] | None = None,
) -> CuttingPlan:
    """The plan for two lists as text; names: what messages call the files. Raises as they do."""
    wanted, there = read_cuts(cuts, unit, names[0]), read_bars(bars, unit, names[1])
    # checked here too, where the unit of the lists is known, so that what is wrong is told in it
    check(wanted, there, kerf, end_trim, Style.inch() if unit == "inch" else Style.metric())
    return plan_cuts(wanted, there, kerf, end_trim, seconds, progress)


def _cut(row: Row) -> Cut:
    quantity = row.whole("quantity", 0) if row.cells.get("quantity") else 1
    return Cut(row.cells.get("mark", ""), row.length(), quantity)


def _bar(row: Row) -> Bar:
    on_hand = row.whole("on_hand", 0) if row.cells.get("on_hand") else None
    name = row.cells.get("name", "") or row.cells.get("length", "")
    return Bar(name, row.length(), row.money("price"), on_hand, offcut=on_hand is not None)


def _read(
    text: str | bytes,
    unit: str,
    file: str,
    columns: Sequence[str],
    needed: Sequence[str],
    make: Callable[[Row], Made],
) -> tuple[Made, ...]:
    made: list[Made] = []
    mistakes: list[str] = []
    for row in _rows(_decoded(text, file), unit, file, columns, needed):
        try:
            made.append(make(row))
        except ListError as wrong:
            mistakes.append(str(wrong))
    if mistakes:
        raise ListError("\n".join(mistakes))
    if not made:
        raise ListError(f"{file}: has no lines below its headings; give one line for each length")
    return tuple(made)


def _decoded(text: str | bytes, file: str) -> str:
    if isinstance(text, str):
        return text.removeprefix("\ufeff")
    try:
        return text.decode("utf-8-sig")
    except UnicodeDecodeError as wrong:
        line = text[: wrong.start].count(b"\n") + 1
        raise ListError(f"{file}, line {line}: is not UTF-8 text; save the list as CSV in UTF-8") from None


def _rows(text: str, unit: str, file: str, columns: Sequence[str], needed: Sequence[str]) -> list[Row]:
    """The lines that have anything in them, under the headings, which may stand in any order and letter case."""
    parted = _parted_by(text)
    lines = csv.reader(io.StringIO(text), strict=True, delimiter=parted)
    rows: list[Row] = []
    headings: list[str] = []
    try:
        for cells in lines:
            cells = [cell.strip() for cell in cells]
            if not any(cells):
                continue
            if not headings:
                headings = _headings(cells, file, lines.line_num, columns, needed)
            elif len(cells) > len(headings):
                raise ListError(
                    f"{file}, line {lines.line_num}: has {len(cells)} cells for {len(headings)} headings;"
                    f' put a cell with {PARTS[parted]} in it, or inches, in double quotes: "9 3/8"""'
                )
            else:
                rows.append(Row(file, lines.line_num, dict(zip(headings, cells, strict=False)), unit))
    except csv.Error as wrong:
        raise ListError(f"{file}, line {lines.line_num}: {wrong}; give values with {PARTS[parted]} between") from None
    if not headings:
        raise ListError(f"{file}: is empty; its first line has the headings {', '.join(columns)}")
    return rows


def _parted_by(text: str) -> str:
    """What stands between the cells: where a comma is the decimal sign, spreadsheets write semicolons."""
    first = next((line for line in text.splitlines() if line.strip()), "")
    return max(PARTS, key=first.count)


def _headings(cells: Sequence[str], file: str, line: int, columns: Sequence[str], needed: Sequence[str]) -> list[str]:
    names = [cell.lower().replace(" ", "_").replace("-", "_") for cell in cells]
    accepted = f"the columns are {', '.join(columns)}"
    wrong: list[str] = []
    for name in dict.fromkeys(names):
        if name not in columns:
            near = get_close_matches(name, columns, 1)
            hint = f"; did you mean {near[0]}?" if near else ";"
            wrong.append(f"column {name!r} is not known{hint} {accepted}")
        elif names.count(name) > 1:
            wrong.append(f"column {name!r} stands there twice; {accepted}")
    if not wrong:
        wrong = [f"column {name!r} is missing; {accepted}" for name in needed if name not in names]
    if wrong:
        raise ListError("\n".join(f"{file}, line {line}: {one}" for one in wrong))
    return names
