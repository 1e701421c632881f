"""What can be wrong with a question to this room."""

from __future__ import annotations

from fitwright.errors import FitwrightError


class TruingError(FitwrightError, ValueError):
    """A reading of something that this piece does not have; the message says what it has."""
