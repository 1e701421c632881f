"""The error of this room: stock that cannot be read, does not exist, or has no such property."""

from __future__ import annotations

from collections.abc import Iterable
from difflib import get_close_matches

from fitwright.errors import FitwrightError


class StockError(FitwrightError, ValueError):
    """Stock that cannot be; the message says what is accepted and the nearest right word."""


def nearest(word: str, accepted: Iterable[str]) -> str:
    """`, did you mean …?` with the nearest accepted word, or a semicolon when none is near."""
    near = get_close_matches(word.lower(), list(accepted), 1, 0.55)
    return f", did you mean {near[0]!r}?" if near else ";"


def positive(what: str, **sizes: float) -> None:
    """Raises StockError when a size [mm] is not a positive number."""
    for name, size in sizes.items():
        if not 0 < size < float("inf"):
            raise StockError(f"the {name.replace('_', ' ')} of {what} is {size:g} mm: it has to be more than 0")
