"""What the coping trade refuses to do."""

from __future__ import annotations

from fitwright.errors import FitwrightError


class NoTemplate(FitwrightError, ValueError):
    """An end that a template would not help with: square, flattened, or of a closed loop."""
