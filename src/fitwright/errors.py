"""The one base error; each room's errors are leaves of it and of the built-in they resemble."""

from __future__ import annotations


class FitwrightError(Exception):
    """Something the maker or the caller has to change; the message says what, where and what would do."""
