"""What is misused in this trade."""

from __future__ import annotations

from fitwright.errors import FitwrightError


class PlanError(FitwrightError, ValueError):
    """Steps or working hours that no plan can be made of; the message says which and what to do."""
