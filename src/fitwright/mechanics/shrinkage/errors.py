"""Errors of this room."""

from __future__ import annotations

from fitwright.errors import FitwrightError


class ShrinkageError(FitwrightError, ValueError):
    """Weld data that cannot be used: no thickness, no length, a process that is not known."""
