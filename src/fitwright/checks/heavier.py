"""The next heavier stock: a thicker wall of the same outside, then a larger size of the same wall."""

from __future__ import annotations

import re

from fitwright.checks.tables import rows
from fitwright.stock import Stock, StockError, parse_stock

WALLS = 4
SIZES = 3
WALLED = ("round tube", "square tube", "rectangular tube", "hss", "angle", "flat")
SIZED = ("round tube", "square tube", "angle", "round bar")


def heavier(stock: Stock) -> tuple[Stock, ...]:
    """Stock of the same key and material with more metal, lightest change first: up to four walls, then three sizes.

    None for lumber and what is not in the table of common sizes.

    >>> from fitwright.stock import parse_stock
    >>> [more.label for more in heavier(parse_stock("round tube 1 1/8 x 16 ga", key="frame"))][:2]
    ['round tube 1 1/8 x 14 ga', 'round tube 1 1/8 x 13 ga']
    """
    words = _plain(stock)
    found = [_made(text, stock) for text in [*_thicker(words), *_larger(words)]]
    known = [more for more in found if more is not None and more.section.area > stock.section.area]
    return tuple(dict.fromkeys(known))


def _plain(stock: Stock) -> str:
    """The words for its sizes, without those for its material."""
    return stock.label.removesuffix(stock.material.name).strip()


def _made(text: str, stock: Stock) -> Stock | None:
    try:
        return parse_stock(text, key=stock.key, grade=stock.material.name)
    except StockError:
        return None


def _thicker(words: str) -> list[str]:
    if words.startswith("pipe"):
        return [re.sub(r"sch \w+$", more, words) for more in _after("schedule", "pipe", words[words.rindex("sch") :])]
    if not words.startswith(WALLED) or " x " not in words:
        return []
    start, last = words.rsplit(" x ", 1)
    what = "plate" if words.startswith(("angle", "flat")) else "tube wall"
    system, size, unit = _taken(last)
    return [f"{start} x {more}{unit}" for more in _after(what, system, size)][:WALLS]


def _taken(last: str) -> tuple[str, str, str]:
    """System, size as the table has it, and the unit that follows it."""
    if last.endswith(" ga"):
        return "gauge", last, ""
    return ("mm", last.removesuffix(" mm"), " mm") if last.endswith(" mm") else ("inch", last.removesuffix(" in"), "")


def _larger(words: str) -> list[str]:
    shape = next((shape for shape in SIZED if words.startswith(shape + " ")), None)
    if shape is None:
        return []
    sizes = words.removeprefix(shape).removesuffix(" mm").removesuffix(" in").strip().split(" x ")
    system, unit = ("mm", " mm") if words.endswith(" mm") else ("inch", "")
    rest = sizes[1:] if len(sizes) < 3 else sizes[2:]
    doubled = len(sizes) == 3
    if doubled and sizes[0] != sizes[1]:
        return []
    sides = [[more, more] if doubled else [more] for more in _after(shape, system, sizes[0])]
    suffix = unit
    return [f"{shape} {' x '.join([*side, *rest])}{suffix}" for side in sides][:SIZES]


def _after(what: str, system: str, size: str) -> list[str]:
    """The steps of the table beyond a size."""
    values = next((row["values"].split("|") for row in rows("stock_steps") if _is(row, what, system)), [])
    if size in values:
        return values[values.index(size) + 1 :]
    return [value for value in values if _number(value) > _number(size)] if system in ("inch", "mm") else []


def _is(row: dict[str, str], what: str, system: str) -> bool:
    return row["what"] == what and row["system"] == system


def _number(text: str) -> float:
    """The value of a size such as `1 1/8`; 0 when it is none."""
    total = 0.0
    for word in text.replace('"', "").split():
        top, _, bottom = word.partition("/")
        try:
            total += float(top) / float(bottom or 1)
        except ValueError:
            return 0.0
    return total
