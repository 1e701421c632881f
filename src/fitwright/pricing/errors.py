"""What is wrong with a question about money."""

from __future__ import annotations

from fitwright.errors import FitwrightError


class PricingError(FitwrightError, ValueError):
    """A price that cannot be worked out; the message says why and what would do."""
