"""Records as lists (CSV or XLSX) and back; a list with mistakes is refused whole, with every mistake by its row."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass, fields, replace
from datetime import date, datetime
from decimal import Decimal, InvalidOperation
from pathlib import Path
from typing import TYPE_CHECKING, Any, get_type_hints

from fitwright.errors import FitwrightError
from fitwright.shop.records.checking import problems
from fitwright.shop.records.errors import BadRows
from fitwright.shop.records.model import R, values_of
from fitwright.shop.records.tabular import Cells, read_rows, write_rows
from fitwright.units import Unit, parse_angle, parse_length

if TYPE_CHECKING:
    from fitwright.shop.records.keeping import Records

LENGTHS = ("length", "radius", "blank", "leg_start", "leg_end", "mark")
STOCKS = ("label", "section")
YES, NO = ("yes", "true", "1", "x"), ("no", "false", "0", "")


@dataclass(frozen=True)
class TakenIn:
    """What came of a list: records added, changed, and found as they were."""

    added: int
    changed: int
    same: int


def headings(kind: type[R]) -> list[str]:
    """The columns of a list of this kind: id and version first, units in the name.

    >>> from fitwright.shop.records.model import OnHand
    >>> headings(OnHand)[:5]
    ['id', 'version', 'label', 'length mm', 'count']
    """
    names = [field.name for field in fields(kind)]
    return ["id", "version", *(_heading(name) for name in names if name not in ("id", "version"))]


def export(records: Records, kind: type[R], file: Path) -> int:
    """All records of a kind into a CSV or XLSX file; how many. Raises BadRows for another kind of file."""
    found = records.all(kind)
    names = ["id", "version", *values_of(found[0])] if found else []
    write_rows(file, kind.kind, headings(kind), [[getattr(one, name) for name in names] for one in found])
    return len(found)


def take_in(records: Records, kind: type[R], file: Path, unit: Unit, today: date) -> TakenIn:
    """Take in a list: rows without an id are added, rows with one change that record; all or nothing.

    What the list has no column for stays as it is in a record that is changed.

    unit: of bare lengths in a column without a unit in its heading. today: for rows without a day.
    Raises BadRows with every row that cannot be taken in.
    """
    wrong: list[tuple[int, str]] = []
    table = read_rows(file)
    columns = _columns(kind, table.headings, wrong)
    read = [] if wrong else [_read(kind, row, columns, unit, today, wrong) for row in table.rows]
    rows = [(number, one) for number, one in read if one is not None] if not wrong else []
    if wrong:
        raise BadRows(file.name, tuple(wrong))
    return _keep(records, kind, file.name, rows, {name for name, _ in columns})


def _keep(records: Records, kind: type[R], name: str, rows: Sequence[tuple[int, R]], given: Collection[str]) -> TakenIn:
    added = changed = 0
    with records.changing() as change:
        there = {one.id: one for one in change.all(kind)}
        rows = [(number, _filled(one, there.get(one.id), given)) for number, one in rows]
        wrong = [(row, said) for row, one in rows for said in _clash(one, there)]
        if wrong:
            raise BadRows(name, tuple(wrong))
        for _, one in rows:
            if not one.id:
                change.add(one)
                added += 1
            elif values_of(one) != values_of(there[one.id]):
                change.replace(replace(one, version=there[one.id].version))
                changed += 1
    return TakenIn(added, changed, len(rows) - added - changed)


def _filled(one: R, now: R | None, given: Collection[str]) -> R:
    """A row with what the list has no column for from the record as it is now."""
    there: dict[str, Any] = {} if now is None else values_of(now)
    return replace(one, **{name: value for name, value in there.items() if name not in given})


def _clash(one: R, there: dict[int, R]) -> Iterator[str]:
    if not one.id:
        return
    now = there.get(one.id)
    if now is None:
        yield f"there is no record {one.id} any more: leave its id empty to add it as a new one"
    elif one.version and one.version != now.version and values_of(one) != values_of(now):
        theirs = values_of(now)
        said = [f"{_heading(n)} is now {theirs[n]}, here {v}" for n, v in values_of(one).items() if v != theirs[n]]
        yield f"record {one.id} was changed since the list was written: {'; '.join(said)}"


def _heading(name: str) -> str:
    return f"{name} mm".replace("_", " ") if name in LENGTHS else name.replace("_", " ")


def _columns(kind: type[R], given: Sequence[str], wrong: list[tuple[int, str]]) -> list[tuple[str, bool]]:
    """For each column of the file the name of its value, and whether its heading says mm."""
    names = {field.name for field in fields(kind)}
    found: list[tuple[str, bool]] = []
    for heading in given:
        plain = " ".join(heading.lower().replace("_", " ").replace("(", " ").replace(")", " ").split())
        in_mm = plain.endswith(" mm")
        name = plain.removesuffix(" mm").replace(" ", "_")
        name = f"{name}_deg" if f"{name}_deg" in names else name
        if name not in names:
            wrong.append((1, f"column {heading!r} is not known: use {', '.join(headings(kind))}"))
        found.append((name, in_mm))
    missing = [f.name for f in fields(kind) if _needed(kind, f.name) and f.name not in {name for name, _ in found}]
    if missing:
        wrong.append((1, f"column {', '.join(_heading(name) for name in missing)} is not there"))
    doubled = sorted({name for name, _ in found if [other for other, _ in found].count(name) > 1})
    if doubled:
        wrong.append((1, f"column {', '.join(doubled)} is there twice"))
    return found


def _needed(kind: type[R], name: str) -> bool:
    from dataclasses import MISSING

    return name != "day" and next(f for f in fields(kind) if f.name == name).default is MISSING


def _read(
    kind: type[R],
    row: Cells,
    columns: Sequence[tuple[str, bool]],
    unit: Unit,
    today: date,
    wrong: list[tuple[int, str]],
) -> tuple[int, R | None]:
    hints = get_type_hints(kind)
    values: dict[str, Any] = {"day": today} if "day" in hints else {}
    said: list[str] = []
    for (name, in_mm), cell in zip(columns, row.cells, strict=False):
        if cell is None or (isinstance(cell, str) and not cell.strip()):
            if _needed(kind, name):
                said.append(f"{_heading(name)} is empty")
            continue
        try:
            values[name] = _value(name, hints[name], cell, "mm" if in_mm else unit, row.comma)
        except (FitwrightError, ValueError, InvalidOperation, OverflowError) as error:
            reason = str(error).splitlines()[0] if isinstance(error, FitwrightError | Wrong) else "cannot be read"
            said.append(f"{_heading(name)} is {str(cell)[:40]!r}: {reason}")
    said += [] if said else list(problems(values))
    wrong += [(row.number, one) for one in said]
    return row.number, None if said else kind(**values)


class Wrong(ValueError):
    """A cell that cannot be read, told in plain words."""


def _value(name: str, hint: Any, cell: Any, unit: str, comma: bool) -> Any:
    """A cell as the value that the record wants."""
    if name in STOCKS:
        return label_of(str(cell), unit)
    if name in LENGTHS:
        return parse_length(_plain(cell, comma), unit)
    if name.endswith("_deg"):
        import math

        return round(math.degrees(parse_angle(_plain(cell, comma))), 9)
    kinds = (bool, int, Decimal, date, float)
    wanted = next((one for one in kinds if hint is one or one in getattr(hint, "__args__", ())), str)
    return _READERS[wanted](_plain(cell, comma) if wanted in (Decimal, float, int) else cell)


def label_of(text: str, unit: str) -> str:
    """A stock in words as its label; one that is unknown to the tables stays an error. Raises StockError."""
    from fitwright.stock import parse_stock

    return parse_stock(text, unit=unit).label


def _plain(cell: Any, comma: bool) -> Any:
    return cell.replace(",", ".") if comma and isinstance(cell, str) and "." not in cell else cell


def _yes(cell: Any) -> bool:
    word = str(cell).strip().lower()
    if word in YES or word in NO:
        return word in YES
    raise Wrong("write yes or no")


def _day(cell: Any) -> date:
    if isinstance(cell, datetime):
        return cell.date()
    try:
        return cell if isinstance(cell, date) else date.fromisoformat(str(cell).strip()[:10])
    except ValueError:
        raise Wrong("write a day as 2026-11-25") from None


def _whole(cell: Any) -> int:
    if float(cell) != int(float(cell)):
        raise Wrong("write a whole number")
    return int(float(cell))


def _money(cell: Any) -> Decimal:
    money = Decimal(str(cell).strip())
    return money.quantize(Decimal("0.01")) if money == money.quantize(Decimal("0.01")) else money


_READERS: dict[type, Any] = {bool: _yes, int: _whole, Decimal: _money, date: _day, float: float, str: str}
