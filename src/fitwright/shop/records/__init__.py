"""The shop's records: trials, readings, stock and offcuts, prices, hours, purchases, quotes, in a database."""

from __future__ import annotations

from typing import TYPE_CHECKING

from fitwright.shop.records.errors import (
    BadRows,
    Busy,
    CannotKeep,
    CannotOpen,
    ChangedMeanwhile,
    Difference,
    NewerRecords,
    NotRecords,
    NotThere,
    RecordsError,
)
from fitwright.shop.records.model import (
    KINDS,
    STATES,
    Built,
    Hours,
    Measured,
    OnHand,
    Price,
    Purchase,
    Quoted,
    R,
    Record,
    Trial,
)
from fitwright.shop.records.where import ENVIRONMENT, Where, where

if TYPE_CHECKING:
    from fitwright.shop.records.keeping import Records

__all__ = [
    "ENVIRONMENT",
    "KINDS",
    "STATES",
    "BadRows",
    "Built",
    "Busy",
    "CannotKeep",
    "CannotOpen",
    "ChangedMeanwhile",
    "Difference",
    "Hours",
    "Measured",
    "NewerRecords",
    "NotRecords",
    "NotThere",
    "OnHand",
    "Price",
    "Purchase",
    "Quoted",
    "R",
    "Record",
    "RecordsError",
    "Trial",
    "Where",
    "open_records",
    "where",
]


def open_records(place: Where) -> Records:
    """The records at a place; the database library is loaded only here. Raises as `keeping.open_records` does."""
    from fitwright.shop.records.keeping import open_records as opened

    return opened(place)
