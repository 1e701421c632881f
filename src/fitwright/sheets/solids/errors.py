"""What can go wrong when solids are made."""

from __future__ import annotations

from fitwright.errors import FitwrightError


class SolidError(FitwrightError, RuntimeError):
    """The solid modeller did not make a part as it was computed, or a file could not be written."""
