"""What is misused in this trade."""

from __future__ import annotations

from fitwright.errors import FitwrightError


class FinishError(FitwrightError, ValueError):
    """A film, an air or a tin that cannot be; the message says which and what is accepted."""
