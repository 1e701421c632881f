"""What is refused about a photo: pictures that cannot be read, marks that contradict themselves."""

from __future__ import annotations

from fitwright.errors import FitwrightError


class PictureError(FitwrightError, ValueError):
    """A picture that is not read; the message says why and what would be."""


class MarksError(FitwrightError, ValueError):
    """Marks from which nothing can be worked out; the message says which and what to change."""
