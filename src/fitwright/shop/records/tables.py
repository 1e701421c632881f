"""The tables of the records as SQLAlchemy sees them; the migrations make them, a test holds the two together."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

from sqlalchemy import (
    Boolean,
    Column,
    Date,
    Dialect,
    Double,
    Integer,
    MetaData,
    Numeric,
    String,
    Table,
    TypeDecorator,
)
from sqlalchemy.types import TypeEngine

from fitwright.shop.records.checking import CENTS, LONGEST_TEXT

METADATA = MetaData()


class Money(TypeDecorator[Decimal]):
    """Decimal money: a number with four places on a server, and its text in SQLite, which has no decimals."""

    impl = Numeric(14, CENTS)
    cache_ok = True

    def load_dialect_impl(self, dialect: Dialect) -> TypeEngine[Any]:
        """What the database keeps it as."""
        return dialect.type_descriptor(String(24) if dialect.name == "sqlite" else Numeric(14, CENTS))

    def process_bind_param(self, value: Decimal | None, dialect: Dialect) -> Any:
        """On the way in."""
        return value if value is None or dialect.name != "sqlite" else f"{value:f}"

    def process_result_value(self, value: Any, dialect: Dialect) -> Decimal | None:
        """On the way out: as few places as there are, but two."""
        if value is None:
            return None
        money = Decimal(value)
        cents = money.quantize(Decimal("0.01"))
        return cents if cents == money else money.normalize()


def _text(name: str, size: int = LONGEST_TEXT) -> Column[str]:
    return Column(name, String(size), nullable=False)


def _number(name: str, empty: bool = False) -> Column[float]:
    return Column(name, Double, nullable=empty)


def _day() -> Column[Any]:
    return Column("day", Date, nullable=False)


def _table(name: str, *columns: Column[Any]) -> Table:
    own = (
        Column("id", Integer, primary_key=True, autoincrement=True),
        Column("version", Integer, nullable=False),
    )
    # numbers are never given twice, so that a stale form cannot hit another record
    return Table(name, METADATA, *own, *columns, sqlite_autoincrement=True)


TABLES = {
    table.name: table
    for table in (
        _table(
            "trials", _day(), _text("die"), _text("section"), _number("asked_deg"), _number("got_deg"),
            _text("material"), _text("heat"), _number("radius", True), _number("blank", True),
            _number("leg_start", True), _number("leg_end", True), _number("mark", True),
            Column("left_out", Boolean, nullable=False), _text("note"),
        ),
        _table(
            "readings", _day(), _text("job"), _text("of"), _number("asked"), _number("got"), _text("unit"),
            _number("precision"), _text("step"),
        ),
        _table(
            "stock", _text("label"), _number("length"), Column("count", Integer, nullable=False),
            Column("price", Money, nullable=False), Column("offcut", Boolean, nullable=False), _text("note"),
            _text("place"), _text("heat"),
        ),
        _table(
            "prices", _day(), _text("label"), _number("length"), Column("price", Money, nullable=False),
            _text("supplier"),
        ),
        _table(
            "hours", _day(), _text("job"), _text("step"), _text("step_kind"), _number("hours"),
            Column("people", Integer, nullable=False), _number("usual_hours", True), _text("note"),
        ),
        _table(
            "purchases", _day(), _text("what"), Column("count", Integer, nullable=False),
            Column("price", Money, nullable=False), _number("length", True), _text("supplier"), _text("job"),
        ),
        _table(
            "quotes", _day(), _text("job"), Column("price", Money, nullable=False), _text("currency"), _text("state"),
            Column("cost", Money), _text("note"),
        ),
        _table(
            "built", _day(), _text("job"), Column("taken", Integer, nullable=False),
            Column("put", Integer, nullable=False), _text("note"),
        ),
    )
}  # fmt: skip

CHANGES = Table("changes", METADATA, Column("id", Integer, primary_key=True), Column("count", Integer, nullable=False))
"""One row whose count goes up with every change, so that others see at a glance that something has."""
