"""What the bench trade refuses."""

from __future__ import annotations

from fitwright.errors import FitwrightError


class BenchError(FitwrightError, ValueError):
    """A set-up that is asked for and cannot be: a part that is not there, or one in two groups."""


class BenchStopped(FitwrightError, InterruptedError):
    """The caller stopped the planning."""
