"""The first tables: trials, readings, stock, prices, hours, purchases, quotes."""

import sqlalchemy as sa
from alembic import op

revision = "0001"
down_revision = None

MONEY = sa.Numeric(14, 4).with_variant(sa.String(24), "sqlite")


def upgrade() -> None:
    """From nothing."""
    _make("trials", _day(), *_texts("die", "section"), *_numbers("asked_deg", "got_deg"), *_texts("material", "heat"),
          *_numbers("radius", "blank", "leg_start", "leg_end", "mark", empty=True), *_texts("note"))  # fmt: skip
    _make("readings", _day(), *_texts("job", "of"), *_numbers("asked", "got"), *_texts("unit"),
          *_numbers("precision"), *_texts("step"))  # fmt: skip
    _make("stock", *_texts("label"), *_numbers("length"), _count("count"), _money("price"),
          sa.Column("offcut", sa.Boolean, nullable=False), *_texts("note"))  # fmt: skip
    _make("prices", _day(), *_texts("label"), *_numbers("length"), _money("price"), *_texts("supplier"))
    _make("hours", _day(), *_texts("job", "step", "step_kind"), *_numbers("hours"), _count("people"),
          *_numbers("usual_hours", empty=True), *_texts("note"))  # fmt: skip
    _make("purchases", _day(), *_texts("what"), _count("count"), _money("price"), *_numbers("length", empty=True),
          *_texts("supplier", "job"))  # fmt: skip
    _make("quotes", _day(), *_texts("job"), _money("price"), *_texts("currency", "state"),
          sa.Column("cost", MONEY), *_texts("note"))  # fmt: skip


def _make(name: str, *columns: sa.Column) -> None:  # type: ignore[type-arg]
    own = (sa.Column("id", sa.Integer, primary_key=True, autoincrement=True), _count("version"))
    op.create_table(name, *own, *columns, sqlite_autoincrement=True)


def _texts(*names: str) -> "list[sa.Column[str]]":
    return [sa.Column(name, sa.String(400), nullable=False) for name in names]


def _numbers(*names: str, empty: bool = False) -> "list[sa.Column[float]]":
    return [sa.Column(name, sa.Double, nullable=empty) for name in names]


def _day() -> sa.Column:  # type: ignore[type-arg]
    return sa.Column("day", sa.Date, nullable=False)


def _count(name: str) -> "sa.Column[int]":
    return sa.Column(name, sa.Integer, nullable=False)


def _money(name: str) -> sa.Column:  # type: ignore[type-arg]
    return sa.Column(name, MONEY, nullable=False)
