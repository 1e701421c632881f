"""Opening the records: the right settings, the newest tables, and plain words for what goes wrong."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, Any

from sqlalchemy import Engine, Table, create_engine, event, inspect, select, text
from sqlalchemy.exc import ArgumentError, DatabaseError, DBAPIError, NoSuchModuleError

from fitwright.shop.records.errors import Busy, CannotOpen, NewerRecords, NotRecords, RecordsError
from fitwright.shop.records.where import Where

if TYPE_CHECKING:
    from sqlalchemy import Connection

OURS = 0x46745772
"""What marks an SQLite file as ours (PRAGMA application_id)."""
VERSIONS = ("0001", "0002")
WAITS_MS = 10_000
"""How long another program is waited for."""
WRITES = "fitwright_writes"


def engine_of(place: Where) -> Engine:
    """An engine with our settings; nothing is reached yet. Raises NotRecords for an address that is none."""
    if place.file is not None:
        engine = create_engine(place.url)
        event.listen(engine, "connect", _settle_file)
        event.listen(engine, "begin", _begin_file)
        return engine
    try:
        limits = {"connect_timeout": 5, "options": f"-c lock_timeout={WAITS_MS} -c statement_timeout=60000"}
        return create_engine(place.url, pool_pre_ping=True, connect_args=limits, isolation_level="READ COMMITTED")
    except (ArgumentError, NoSuchModuleError, ValueError) as wrong:
        raise NotRecords(f"{place} is no address of records: {_short(wrong)}") from None
    except ImportError:
        raise CannotOpen(
            f"{place}: the driver for PostgreSQL is not installed: pip install fitwright[postgres]"
        ) from None


def _settle_file(connection: Any, _: Any) -> None:
    """WAL lets others read while one writes; FULL makes every commit survive a power cut (sqlite.org/pragma.html)."""
    connection.isolation_level = None  # transactions begin where we say, tables included
    cursor = connection.cursor()
    for said in (f"busy_timeout={WAITS_MS}", "foreign_keys=ON", "journal_mode=WAL", "synchronous=FULL"):
        cursor.execute(f"PRAGMA {said}")
    cursor.close()


def _begin_file(connection: Connection) -> None:
    """One who is going to write says so at once: what is read first can then not become old before it is written."""
    writes = connection.get_execution_options().get(WRITES)
    connection.exec_driver_sql("BEGIN IMMEDIATE" if writes else "BEGIN")


@contextmanager
def reading(engine: Engine, place: Where) -> Iterator[Connection]:
    """A transaction that sees the records as they are at one moment."""
    with told_plainly(place), engine.connect() as connection:
        own = connection
        if place.file is None:
            own = connection.execution_options(isolation_level="REPEATABLE READ")
        with own.begin():
            yield own


@contextmanager
def writing(engine: Engine, place: Where) -> Iterator[Connection]:
    """A transaction that is kept whole at its end, or not at all."""
    with told_plainly(place), engine.connect() as connection:
        own = connection.execution_options(**{WRITES: True})
        with own.begin():
            yield own


@contextmanager
def told_plainly(place: Where) -> Iterator[None]:
    """Raises RecordsError in the place of whatever the database says."""
    try:
        yield
    except DBAPIError as wrong:
        raise _plainly(wrong, place) from None
    except sqlite3.Error as wrong:
        raise _of_file(wrong, place) from None


def _plainly(wrong: DBAPIError, place: Where) -> RecordsError:
    if isinstance(wrong.orig, sqlite3.Error):
        return _of_file(wrong.orig, place)
    said = _short(wrong.orig or wrong)
    state = getattr(wrong.orig, "sqlstate", None) or ""
    if state in ("55P03", "57014", "40001", "40P01"):
        return Busy(f"{place} is kept busy by another program: try again. Nothing was written ({said})")
    if not state or wrong.connection_invalidated or state.startswith(("08", "28", "3D", "57", "53")):
        return CannotOpen(f"{place} cannot be reached: {said}. Is the server running, and are name and password right?")
    return CannotOpen(f"{place}: {said}") if isinstance(wrong, DatabaseError) else NotRecords(f"{place}: {said}")


def _of_file(wrong: sqlite3.Error, place: Where) -> RecordsError:
    said = str(wrong)
    if "locked" in said or "busy" in said:
        return Busy(f"{place} is kept busy by another program for more than {WAITS_MS // 1000} s: nothing was written")
    if "not a database" in said or "malformed" in said or "unsupported file format" in said:
        return NotRecords(f"{place} is not a file of records, or is damaged ({said}): restore a backup of it")
    if "readonly" in said or "read-only" in said or "unable to open" in said:
        return CannotOpen(f"{place} cannot be opened or written: see who may write to it and to its folder ({said})")
    if "full" in said:
        return CannotOpen(f"{place} cannot be written: the disk is full. Nothing was written")
    return CannotOpen(f"{place}: {said}")


def _short(wrong: BaseException) -> str:
    lines = [line.strip() for line in str(wrong).splitlines() if line.strip()]
    return lines[0] if lines else type(wrong).__name__


def make_ready(engine: Engine, place: Where) -> Path | None:
    """Bring the tables to the newest version, each step in one transaction; the copy made before, if one was needed.

    Raises CannotOpen, NotRecords, NewerRecords, Busy.
    """
    if place.file is not None:
        _make_folder(place)
    with reading(engine, place) as connection:
        version = _version(connection, place)
    if version == VERSIONS[-1]:
        return None
    copy = None
    if version and place.file is not None:
        copy = place.file.with_name(f"{place.file.stem}-before-{VERSIONS[-1]}{place.file.suffix}")
        copy_file(place.file, copy, place)
    while version != VERSIONS[-1]:
        version = _one_step(engine, place)
    return copy


def copy_file(source: Path, target: Path, place: Where) -> None:
    """A copy of an SQLite file as it is at one moment, whole or not at all."""
    draft = target.with_name(f".{target.name}.part")
    with told_plainly(place):
        draft.unlink(missing_ok=True)
        _from, _to = sqlite3.connect(source), sqlite3.connect(draft)
        try:
            _from.backup(_to)
        finally:
            _from.close()
            _to.close()
        draft.replace(target)


def _make_folder(place: Where) -> None:
    assert place.file is not None
    try:
        place.file.parent.mkdir(parents=True, exist_ok=True)
    except OSError as wrong:
        raise CannotOpen(f"the folder {place.file.parent} cannot be made: {wrong.strerror}") from None
    if place.file.is_dir():
        raise NotRecords(f"{place} is a folder: name the file in it, such as {place.file / 'records.db'}")


def _version(connection: Connection, place: Where) -> str:
    """The version of the tables, "" for none yet. Raises NotRecords and NewerRecords."""
    names = set(inspect(connection).get_table_names())
    mark = connection.exec_driver_sql("PRAGMA application_id").scalar() if place.file is not None else OURS
    if "alembic_version" not in names:
        if names and (place.file is not None or names & _our_names()):
            raise NotRecords(
                f"{place} is the database of another program: it has tables {', '.join(sorted(names)[:4])}"
            )
        return ""
    if mark != OURS:
        raise NotRecords(f"{place} is the database of another program")
    found = str(connection.execute(text("SELECT version_num FROM alembic_version")).scalar())
    if found not in VERSIONS:
        raise NewerRecords(
            f"{place} is of version {found} and this program knows up to {VERSIONS[-1]}: update Fitwright here"
        )
    return found


def _our_names() -> set[str]:
    from fitwright.shop.records.tables import METADATA

    return set(METADATA.tables)


def _one_step(engine: Engine, place: Where) -> str:
    """The next step, unless another program has made it meanwhile; the version reached."""
    from alembic import command
    from alembic.config import Config

    with writing(engine, place) as connection:
        if place.file is None:
            connection.execute(text(f"SELECT pg_advisory_xact_lock({OURS})"))
        version = _version(connection, place)
        if version == VERSIONS[-1]:
            return version
        to = VERSIONS[VERSIONS.index(version) + 1] if version else VERSIONS[0]
        if place.file is not None:
            connection.exec_driver_sql(f"PRAGMA application_id={OURS}")
        config = Config()
        config.set_main_option("script_location", str(Path(__file__).parent / "migrations"))
        config.attributes["connection"] = connection
        command.upgrade(config, to)
        return to


def count_of(connection: Connection, changes: Table) -> int:
    """How many changes there have been."""
    return int(connection.execute(select(changes.c.count)).scalar_one())
