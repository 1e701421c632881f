"""What the shop remembers, one frozen record a kind; lengths in mm, angles in degrees, money as Decimal.

Each has an `id` and a `version`, given by the records: 0 before it is kept, 1 after, one more with each change.
"""

from __future__ import annotations

from dataclasses import dataclass, fields, replace
from datetime import date
from decimal import Decimal
from typing import ClassVar, TypeVar

STATES = ("asked", "sent", "accepted", "declined", "paid")


@dataclass(frozen=True)
class Trial:
    """A test bend: set to `asked_deg` at the machine, measured `got_deg` after release.

    section: the stock's label; heat: the heat or batch of the material, empty where it is not known; radius: of the die
    on the centreline. blank: its length before; leg_start and leg_end: from each end to the corner of the centrelines;
    mark: from the starting end to where the mark was set to the die; None where it was not measured.
    left_out: kept, but not learnt from.
    """

    kind: ClassVar[str] = "trials"
    day: date
    die: str
    section: str
    asked_deg: float
    got_deg: float
    material: str = ""
    heat: str = ""
    radius: float | None = None
    blank: float | None = None
    leg_start: float | None = None
    leg_end: float | None = None
    mark: float | None = None
    left_out: bool = False
    note: str = ""
    id: int = 0
    version: int = 0


@dataclass(frozen=True)
class Measured:
    """A reading taken in a job: of what, what was asked and got, in mm or degrees, and how precise (one deviation)."""

    kind: ClassVar[str] = "readings"
    day: date
    job: str
    of: str
    asked: float
    got: float
    unit: str = "mm"
    precision: float = 0.0
    step: str = ""
    id: int = 0
    version: int = 0


@dataclass(frozen=True)
class OnHand:
    """Bars or offcuts on the rack: label and length of each, how many, what one is reckoned at, where they lie."""

    kind: ClassVar[str] = "stock"
    label: str
    length: float
    count: int = 1
    price: Decimal = Decimal(0)
    offcut: bool = True
    place: str = ""
    heat: str = ""
    note: str = ""
    id: int = 0
    version: int = 0


@dataclass(frozen=True)
class Price:
    """What a supplier asks for one bar of a length."""

    kind: ClassVar[str] = "prices"
    day: date
    label: str
    length: float
    price: Decimal
    supplier: str = ""
    id: int = 0
    version: int = 0


@dataclass(frozen=True)
class Hours:
    """Time that a step took. hours: by the clock; people: at it; usual_hours: what the table of rates gives for it."""

    kind: ClassVar[str] = "hours"
    day: date
    job: str
    step: str
    step_kind: str
    hours: float
    people: int = 1
    usual_hours: float | None = None
    note: str = ""
    id: int = 0
    version: int = 0


@dataclass(frozen=True)
class Purchase:
    """What was bought: so many of one length (None for things without) at a price each."""

    kind: ClassVar[str] = "purchases"
    day: date
    what: str
    count: int
    price: Decimal
    length: float | None = None
    supplier: str = ""
    job: str = ""
    id: int = 0
    version: int = 0


@dataclass(frozen=True)
class Quoted:
    """A quote and what became of it: asked, sent, accepted, declined or paid. cost: what it was reckoned to cost."""

    kind: ClassVar[str] = "quotes"
    day: date
    job: str
    price: Decimal
    currency: str
    state: str = "sent"
    cost: Decimal | None = None
    note: str = ""
    id: int = 0
    version: int = 0


@dataclass(frozen=True)
class Built:
    """That the bars of a job were taken off the rack: how many, and how many offcuts were put on it."""

    kind: ClassVar[str] = "built"
    day: date
    job: str
    taken: int
    put: int
    note: str = ""
    id: int = 0
    version: int = 0


Record = Trial | Measured | OnHand | Price | Hours | Purchase | Quoted | Built
R = TypeVar("R", bound=Record)
KINDS: dict[str, type[Record]] = {
    one.kind: one for one in (Trial, Measured, OnHand, Price, Hours, Purchase, Quoted, Built)
}


def values_of(record: Record) -> dict[str, object]:
    """The values of a record by name, without id and version."""
    names = [field.name for field in fields(record) if field.name not in ("id", "version")]
    return {name: getattr(record, name) for name in names}


def kept_as(record: R, number: int, version: int) -> R:
    """The record with the id and version that the records gave it."""
    return replace(record, id=number, version=version)


def told(record: Record) -> str:
    """A record in a few words, for messages."""
    match record:
        case Trial():
            return f"trial {record.id} on {record.die}"
        case OnHand():
            return f"stock {record.id}, {record.label}"
        case _:
            return f"{record.kind} {record.id}"
