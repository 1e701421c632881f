"""One list: columns with a heading each, and rows of plain values."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

Cell = str | int | float | Decimal | None


@dataclass(frozen=True)
class Column:
    """A column: its heading, which carries the unit of its numbers, and its width in a workbook [letters]."""

    heading: str
    width: int = 12
    money: bool = False


@dataclass(frozen=True)
class Listing:
    """A list: the stem of its file's name, its title, its columns and its rows, one cell a column."""

    name: str
    title: str
    columns: tuple[Column, ...]
    rows: tuple[tuple[Cell, ...], ...]
