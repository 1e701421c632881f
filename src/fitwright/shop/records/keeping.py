"""The records, open: what is in them, and changes to them that are kept whole or not at all."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, Any

from sqlalchemy import delete, func, insert, select, update

from fitwright.shop.records.checking import check
from fitwright.shop.records.errors import ChangedMeanwhile, Difference, NotThere
from fitwright.shop.records.model import R, Record, kept_as, told, values_of
from fitwright.shop.records.opening import count_of, engine_of, make_ready, reading, writing
from fitwright.shop.records.tables import CHANGES, TABLES
from fitwright.shop.records.where import Where

if TYPE_CHECKING:
    from sqlalchemy import Connection


class Look:
    """Reads within one transaction; made by `Records.looking`."""

    def __init__(self, connection: Connection) -> None:
        self.connection = connection

    def all(self, kind: type[R]) -> tuple[R, ...]:
        """Every record of a kind, in the order in which they were made."""
        return _all(self.connection, kind)


class Change(Look):
    """Changes under way in one transaction; made by `Records.changing`."""

    def add(self, record: R) -> R:
        """Keep a new record; as it was kept. Raises CannotKeep."""
        check(record)
        made = self.connection.execute(insert(TABLES[record.kind]).values(**values_of(record), version=1))
        assert made.inserted_primary_key is not None
        return kept_as(record, int(made.inserted_primary_key[0]), 1)

    def replace(self, record: R) -> R:
        """Keep new values of a record that was read before, by its id and version.

        Raises ChangedMeanwhile, with both values of all that differs, when somebody has changed it since it was read;
        NotThere when it is gone; CannotKeep.
        """
        check(record)
        table = TABLES[record.kind]
        mine = (table.c.id == record.id) & (table.c.version == record.version)
        done = self.connection.execute(
            update(table).where(mine).values(**values_of(record), version=record.version + 1)
        )
        if done.rowcount != 1:
            self._refuse(record)
        return kept_as(record, record.id, record.version + 1)

    def remove(self, record: Record) -> None:
        """Take a record out. Raises ChangedMeanwhile and NotThere as `replace` does."""
        table = TABLES[record.kind]
        mine = (table.c.id == record.id) & (table.c.version == record.version)
        if self.connection.execute(delete(table).where(mine)).rowcount != 1:
            self._refuse(record)

    def _refuse(self, record: Record) -> None:
        table = TABLES[record.kind]
        row = self.connection.execute(select(table).where(table.c.id == record.id)).mappings().one_or_none()
        if row is None:
            raise NotThere(f"{told(record)} is not there any more: somebody has removed it")
        yours = values_of(record)
        raise ChangedMeanwhile(
            told(record),
            tuple(Difference(name, row[name], value) for name, value in yours.items() if row[name] != value),
        )


class Records:
    """The shop's records; `open_records` opens them. Safe to use from several threads and programs at once."""

    def __init__(self, place: Where) -> None:
        self.place = place
        self.engine = engine_of(place)
        self.copied_to: Path | None = make_ready(self.engine, place)

    def close(self) -> None:
        """Let go of the file or the server."""
        self.engine.dispose()

    def __enter__(self) -> Records:
        return self

    def __exit__(self, *_: object) -> None:
        self.close()

    @contextmanager
    def changing(self) -> Iterator[Change]:
        """Several changes that are kept together or, when anything is raised, not at all. Raises RecordsError."""
        with writing(self.engine, self.place) as connection:
            # first, so that of two who change at once the second waits here on a server too
            connection.execute(update(CHANGES).values(count=CHANGES.c.count + 1))
            yield Change(connection)

    @contextmanager
    def looking(self) -> Iterator[Look]:
        """Several reads of the records as they are at one moment."""
        with reading(self.engine, self.place) as connection:
            yield Look(connection)

    def add(self, record: R) -> R:
        """Keep one new record."""
        with self.changing() as change:
            return change.add(record)

    def add_all(self, records: Iterable[R]) -> list[R]:
        """Keep new records, all or none."""
        with self.changing() as change:
            return [change.add(record) for record in records]

    def replace(self, record: R) -> R:
        """Keep new values of one record; see `Change.replace`."""
        with self.changing() as change:
            return change.replace(record)

    def remove(self, record: Record) -> None:
        """Take one record out; see `Change.remove`."""
        with self.changing() as change:
            change.remove(record)

    def all(self, kind: type[R]) -> tuple[R, ...]:
        """Every record of a kind, in the order in which they were made."""
        with self.looking() as look:
            return look.all(kind)

    def one(self, kind: type[R], number: int) -> R:
        """The record of that id. Raises NotThere."""
        with self.looking() as look:
            found = [record for record in look.all(kind) if record.id == number]
        if not found:
            raise NotThere(f"there is no number {number} among the {kind.kind}")
        return found[0]

    def count(self) -> int:
        """A number that goes up with every change."""
        with reading(self.engine, self.place) as connection:
            return count_of(connection, CHANGES)

    def totals(self) -> dict[str, int]:
        """How many records of each kind there are."""
        with reading(self.engine, self.place) as connection:
            return {
                name: int(connection.execute(select(func.count()).select_from(table)).scalar_one())
                for name, table in TABLES.items()
            }


def _all(connection: Connection, kind: type[R]) -> tuple[R, ...]:
    table = TABLES[kind.kind]
    rows: Sequence[Any] = connection.execute(select(table).order_by(table.c.id)).mappings().all()
    return tuple(kind(**row) for row in rows)


def open_records(place: Where) -> Records:
    """The records at a place, made if there are none, brought to the newest version if they are older.

    Raises CannotOpen, NotRecords, NewerRecords or Busy, each saying what to do.
    """
    return Records(place)
