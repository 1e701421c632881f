"""What can go wrong with the shop's records, each told in plain words."""

from __future__ import annotations

from dataclasses import dataclass

from fitwright.errors import FitwrightError


class RecordsError(FitwrightError):
    """Something about the shop's records that cannot be done."""


class CannotOpen(RecordsError, OSError):
    """The file or the server cannot be reached or written."""

    def __str__(self) -> str:
        return str(self.args[0])


class NotRecords(RecordsError, ValueError):
    """The file or the address is something else than the shop's records."""


class NewerRecords(RecordsError, ValueError):
    """The records were written by a newer program than this one."""


class CannotKeep(RecordsError, ValueError):
    """A record with a value that cannot be kept."""


class Busy(RecordsError, TimeoutError):
    """Another program held the records for too long; nothing was written."""

    def __str__(self) -> str:
        return str(self.args[0])


class NotThere(RecordsError, LookupError):
    """There is no such record, or it has been removed meanwhile."""

    def __str__(self) -> str:
        return str(self.args[0])


@dataclass(frozen=True)
class Difference:
    """One value that two people have changed: its name, what is in the records now, and what was to be written."""

    name: str
    now: object
    yours: object


class ChangedMeanwhile(RecordsError, ValueError):
    """Somebody else has changed the record since it was read; `differences` has both values of each."""

    def __init__(self, what: str, differences: tuple[Difference, ...]) -> None:
        told = "; ".join(f"{one.name} is now {shown(one.now)}, you wrote {shown(one.yours)}" for one in differences)
        super().__init__(
            f"{what} was changed by somebody else meanwhile: {told or 'to the same values'}. "
            "Nothing of yours was written: look at it again, then change it"
        )
        self.what = what
        self.differences = differences


def shown(value: object) -> str:
    """A value as messages show it."""
    return "empty" if value is None or value == "" else f"{value:g}" if isinstance(value, float) else str(value)


class BadRows(RecordsError, ValueError):
    """A list to be taken in with rows that cannot be; `rows` has (number, what is wrong). Nothing was done."""

    def __init__(self, name: str, rows: tuple[tuple[int, str], ...], done: str = "taken in") -> None:
        head = f"{name}: {len(rows)} thing{'s' if len(rows) != 1 else ''} wrong, nothing was {done}:"
        rest = [f"  and {len(rows) - SHOWN} more"] if len(rows) > SHOWN else []
        super().__init__("\n".join([head, *(f"  row {row}: {said}" for row, said in rows[:SHOWN]), *rest]))
        self.rows = rows


SHOWN = 40
