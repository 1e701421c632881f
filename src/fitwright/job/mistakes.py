"""What is wrong in a job file, told all at once: line, place, what, what is accepted, the nearest right word."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from difflib import get_close_matches
from functools import lru_cache
from itertools import islice

from fitwright.errors import FitwrightError

SHOWN = 40
"""Mistakes printed in full; a file with more has one cause, and the rest is counted."""

TOO_MANY = 100
"""Mistakes after which reading stops looking for more, so that any file is answered in time."""

CANDIDATES = 200
EXCERPT = 60


@dataclass(frozen=True)
class Mistake:
    """One thing to put right.

    line, column: from 1; 0 when the whole file is meant. where: the dotted name in the file.
    """

    line: int
    column: int
    where: str
    what: str
    accepted: tuple[str, ...] = ()
    nearest: str | None = None

    def __str__(self) -> str:
        said = ": ".join(filter(None, (self._place(), self.where, self.what)))
        if self.nearest is not None:
            said += f"; did you mean {self.nearest}?"
        if self.accepted:
            said += f" (accepted: {', '.join(self.accepted)})"
        return said

    def _place(self) -> str:
        return f"line {self.line}, column {self.column}" if self.line else ""


class JobFileError(FitwrightError, ValueError):
    """A job file that cannot be used; `mistakes` has every reason, in the order of the file."""

    def __init__(self, name: str, mistakes: Iterable[Mistake]) -> None:
        self.name = name
        self.mistakes = tuple(sorted(dict.fromkeys(mistakes), key=lambda one: (one.line, one.column)))
        super().__init__(self._told())

    def _told(self) -> str:
        count = len(self.mistakes)
        lines = [f"{self.name} has {count} mistake{'s' if count != 1 else ''}:"]
        lines += [f"  {one}" for one in self.mistakes[:SHOWN]]
        if count > SHOWN:
            lines.append(f"  and {count - SHOWN} more")
        return "\n".join(lines)


def nearest(word: str, words: Iterable[str]) -> str | None:
    """The right word that a wrong one most resembles, None when nothing is close; of very many, the first are tried."""
    return _nearest(word, tuple(islice(words, CANDIDATES)))


@lru_cache(maxsize=4096)
def _nearest(word: str, words: tuple[str, ...]) -> str | None:
    by_lower = {right.lower(): right for right in words}
    close = get_close_matches(word[:EXCERPT].lower(), list(by_lower), n=1, cutoff=0.6)
    return by_lower[close[0]] if close else None


def first_of(mistakes: list[Mistake]) -> list[Mistake]:
    """As many mistakes as are told at once, and a last one that says so when there are more."""
    mistakes = list(dict.fromkeys(mistakes))
    if len(mistakes) <= TOO_MANY:
        return mistakes
    last = mistakes[TOO_MANY - 1]
    return [*mistakes[:TOO_MANY], Mistake(last.line, last.column, "", "more mistakes follow: put these right first")]


def excerpt(text: str) -> str:
    """The text on one line, in quotes, cut to what a message can carry."""
    flat = " ".join(text.split())
    return f'"{flat}"' if len(flat) <= EXCERPT else f'"{flat[:EXCERPT]}…"'
