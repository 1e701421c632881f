"""Readings, and what follows from them."""

from __future__ import annotations

from fitwright.truing.changing import changes
from fitwright.truing.errors import TruingError
from fitwright.truing.judging import truing_findings
from fitwright.truing.learning import Command, set_anew
from fitwright.truing.model import ChanceNow, Changed, Effect, Lost, Standing, Taken, Touch, Truing
from fitwright.truing.numbers import Number, Numbers, numbers_of
from fitwright.truing.progress import before_joining
from fitwright.truing.telling import measured
from fitwright.truing.whole import truing

__all__ = [
    "ChanceNow",
    "Changed",
    "Command",
    "Effect",
    "Lost",
    "Number",
    "Numbers",
    "Standing",
    "Taken",
    "Touch",
    "Truing",
    "TruingError",
    "before_joining",
    "changes",
    "measured",
    "numbers_of",
    "set_anew",
    "truing",
    "truing_findings",
]
