"""What goes wrong when a bend is asked for that no bender could be told to make."""

from __future__ import annotations

from fitwright.errors import FitwrightError


class BendError(FitwrightError, ValueError):
    """A path, radius or angle that is not a bend; the message says what to change."""
