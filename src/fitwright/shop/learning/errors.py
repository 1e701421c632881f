"""What cannot be learnt from."""

from __future__ import annotations

from fitwright.errors import FitwrightError


class LearningError(FitwrightError, ValueError):
    """Measurements that do not go together, or a prior that is none."""
