"""Backup to one file and back: the file is an SQLite file of records, wherever the records themselves are."""

from __future__ import annotations

import os
import sqlite3
import tempfile
from contextlib import closing
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from sqlalchemy import delete, insert, select, text, update

from fitwright.shop.records.errors import CannotOpen, NotRecords
from fitwright.shop.records.keeping import Records
from fitwright.shop.records.opening import copy_file, reading, writing
from fitwright.shop.records.tables import CHANGES, TABLES
from fitwright.shop.records.where import Where

Rows = dict[str, list[dict[str, Any]]]


@dataclass(frozen=True)
class Restored:
    """How many records of each kind were brought back, and where what was there before has gone, if there was any."""

    totals: dict[str, int]
    kept_before: Path | None


def back_up(records: Records, target: Path) -> dict[str, int]:
    """Everything into one file, as it is at one moment; the file is whole or not there. How many of each kind.

    Raises CannotOpen where the file cannot be written, or is the records themselves.
    """
    if records.place.file is not None and target.absolute() == records.place.file.absolute():
        raise CannotOpen(f"{target} is where the records are: name another file for the backup")
    if not target.name:  # "." and "/" have no name to write a draft beside
        raise CannotOpen(f"{target} is a folder: name a file in it for the backup")
    rows = _all_rows(records)
    draft = target.with_name(f".{target.name}.part")
    try:
        draft.unlink(missing_ok=True)
        with Records(Where(draft.absolute())) as copy:
            _put(copy, rows)
            with copy.engine.connect() as connection:
                # leaves the journal's mode in the file, which is then one file and not three
                connection.exec_driver_sql("COMMIT")
                connection.exec_driver_sql("PRAGMA journal_mode=DELETE")
        _to_disk(draft)
        os.replace(draft, target)
    except OSError as wrong:
        raise CannotOpen(f"{target} cannot be written: {wrong.strerror or wrong}") from None
    return {name: len(found) for name, found in rows.items()}


def restore(records: Records, source: Path, keep_before: Path) -> Restored:
    """Put what a backup holds in the place of the records, all or nothing; what they were is backed up first.

    keep_before: where that goes. Raises CannotOpen, NotRecords and NewerRecords for a backup that cannot be used.
    """
    if not source.is_file():
        raise CannotOpen(f"{source} is not there: name the file of a backup")
    with tempfile.TemporaryDirectory() as folder:
        own = Path(folder) / source.name
        copy_file(source, own, Where(source))
        if not _has_tables(own):
            # an empty file would be made a new one, and all records given up for nothing
            raise NotRecords(f"{source} is empty, not a backup: name a file that records backup has written")
        with Records(Where(own)) as backup:
            rows = _all_rows(backup)
    kept = None
    if any(records.totals().values()):
        back_up(records, keep_before)
        kept = keep_before
    _put(records, rows)
    return Restored({name: len(found) for name, found in rows.items()}, kept)


def _has_tables(file: Path) -> bool:
    with closing(sqlite3.connect(file)) as opened:
        return opened.execute("SELECT 1 FROM sqlite_master").fetchone() is not None


def _all_rows(records: Records) -> Rows:
    with reading(records.engine, records.place) as connection:
        return {
            name: [dict(row) for row in connection.execute(select(table).order_by(table.c.id)).mappings()]
            for name, table in TABLES.items()
        }


def _put(records: Records, rows: Rows) -> None:
    with writing(records.engine, records.place) as connection:
        connection.execute(update(CHANGES).values(count=CHANGES.c.count + 1))
        for name, table in TABLES.items():
            connection.execute(delete(table))
            if rows[name]:
                connection.execute(insert(table), rows[name])
            if records.place.file is None:
                last = max((row["id"] for row in rows[name]), default=0)
                said = f"SELECT setval(pg_get_serial_sequence('{name}', 'id'), :last, :used)"
                connection.execute(text(said), {"last": max(last, 1), "used": last > 0})


def _to_disk(file: Path) -> None:
    with file.open("rb") as written:
        os.fsync(written.fileno())
