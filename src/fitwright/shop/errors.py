"""A shop file that cannot be used: every mistake in it, each with its line."""

from __future__ import annotations

from dataclasses import dataclass

from fitwright.errors import FitwrightError

# A file with more mistakes has one cause; the rest is counted.
SHOWN = 40


@dataclass(frozen=True)
class ShopMistake:
    """One mistake: line (from 1), dotted name, what is wrong, what is accepted, the nearest right word or ""."""

    line: int
    where: str
    what: str
    accepted: str = ""
    nearest: str = ""

    def __str__(self) -> str:
        text = f"line {self.line}: {self.where}: {self.what}" if self.where else f"line {self.line}: {self.what}"
        if self.accepted:
            text += f"; accepted: {self.accepted}"
        if self.nearest:
            text += f"; did you mean {self.nearest!r}?"
        return text


class ShopError(FitwrightError, ValueError):
    """A shop file with mistakes in it; `mistakes` holds all of them, `file` its name."""

    def __init__(self, file: str, mistakes: tuple[ShopMistake, ...]) -> None:
        count = len(mistakes)
        head = f"{file} has {count} mistake{'s' if count != 1 else ''}"
        rest = [f"  and {count - SHOWN} more"] if count > SHOWN else []
        super().__init__("\n".join([f"{head}:", *(f"  {mistake}" for mistake in mistakes[:SHOWN]), *rest]))
        self.file = file
        self.mistakes = mistakes
