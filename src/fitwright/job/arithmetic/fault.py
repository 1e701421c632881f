"""What is wrong with a piece of arithmetic."""

from __future__ import annotations

from fitwright.errors import FitwrightError


class ArithmeticFault(FitwrightError, ValueError):
    """Arithmetic that cannot be read or worked out; at: the character where, from 0."""

    def __init__(self, at: int, what: str, accepted: tuple[str, ...] = (), nearest: str | None = None) -> None:
        self.at = at
        self.what = what
        self.accepted = accepted
        self.nearest = nearest
        super().__init__(what)
