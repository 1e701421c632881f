"""What is misused in this trade."""

from __future__ import annotations

from fitwright.errors import FitwrightError


class TimberError(FitwrightError, ValueError):
    """A yield or a size that no board can have; the message says which and what is accepted."""
