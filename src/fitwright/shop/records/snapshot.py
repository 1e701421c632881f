"""The records as they are at one moment, for computing with; nothing is made or changed by looking."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from typing import Any, get_type_hints

from fitwright.shop.records.errors import RecordsError
from fitwright.shop.records.model import Hours, Measured, OnHand, Price, R, Trial
from fitwright.shop.records.where import Where

NEWEST = "0002"
"""The version of the tables that is read without the database library, which takes a third of a second to load."""


@dataclass(frozen=True)
class Snapshot:
    """What is learnt from and cut from."""

    trials: tuple[Trial, ...] = ()
    readings: tuple[Measured, ...] = ()
    hours: tuple[Hours, ...] = ()
    stock: tuple[OnHand, ...] = ()
    prices: tuple[Price, ...] = ()


def snapshot(place: Where) -> Snapshot:
    """The records of a place; nothing where nothing was recorded. Raises RecordsError where they cannot be read."""
    if not place.there:
        return Snapshot()
    return (_quickly(place) if place.file is not None else None) or _thoroughly(place)


def state_of(place: Where) -> str:
    """A few words that change with every change of the records, and with nothing else; empty where there are none.

    A server is asked, and what it answers when it cannot be reached is its state.
    """
    if place.file is None:
        return f"{place} {_count_of(place)}"
    if not place.there:
        return ""
    found = place.file.stat()
    try:
        with closing(sqlite3.connect(f"{place.file.as_uri()}?mode=ro", uri=True)) as file:
            (count,) = file.execute("SELECT count FROM changes").fetchone()
            return f"{place} {found.st_ino} {count}"
    except (sqlite3.Error, TypeError):
        return f"{place} {found.st_ino} {found.st_mtime_ns}"


def _count_of(place: Where) -> str:
    from fitwright.shop.records.keeping import open_records

    try:
        with open_records(place) as records:
            return str(records.count())
    except RecordsError as wrong:
        return str(wrong)


def _thoroughly(place: Where) -> Snapshot:
    """By the database library: a server, or a file that is older or damaged or held, which it brings up or explains."""
    from fitwright.shop.records.keeping import open_records

    with open_records(place) as records, records.looking() as look:
        return Snapshot(look.all(Trial), look.all(Measured), look.all(Hours), look.all(OnHand), look.all(Price))


def _quickly(place: Where) -> Snapshot | None:
    """A file of the newest version, read as it is; None for anything else."""
    assert place.file is not None
    try:
        with closing(sqlite3.connect(f"{place.file.as_uri()}?mode=ro", uri=True, isolation_level=None)) as file:
            file.execute("PRAGMA busy_timeout=2000")
            file.row_factory = sqlite3.Row
            file.execute("BEGIN")
            if file.execute("SELECT version_num FROM alembic_version").fetchone()[0] != NEWEST:
                return None
            read = (_rows(file, Trial), _rows(file, Measured), _rows(file, Hours), _rows(file, OnHand))
            return Snapshot(*read, _rows(file, Price))
    except (sqlite3.Error, ValueError, TypeError):
        return None


def _rows(file: sqlite3.Connection, kind: type[R]) -> tuple[R, ...]:
    hints = get_type_hints(kind)
    found = file.execute(f"SELECT * FROM {kind.kind} ORDER BY id").fetchall()
    return tuple(kind(**{name: _value(hints[name], row[name]) for name in row.keys()}) for row in found)  # noqa: SIM118


def _value(hint: Any, stored: Any) -> Any:
    """As the tables' own types read it."""
    if hint is bool:
        return bool(stored)
    if hint is date:
        return date.fromisoformat(stored)
    if hint is Decimal:
        money = Decimal(stored)
        cents = money.quantize(Decimal("0.01"))
        return cents if cents == money else money.normalize()
    return stored
