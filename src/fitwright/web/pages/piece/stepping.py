"""A dim moved by one step of the shop: 1/16 in, 0.5 mm, or one of a count."""

from __future__ import annotations

import math
import re

from fitwright.job.model import Dim
from fitwright.units import LengthError, Style, parse_length
from fitwright.web.errors import NotTaken

PLAIN_NUMBER = re.compile(r"\s*-?\d+(?:\.\d+)?\s*")
HAS_UNIT = re.compile(r"[a-z\"'°″′]", re.IGNORECASE)
NEARLY = 1e-6


def can_step(text: str, is_length: bool, style: Style) -> bool:
    """Whether a dim is a plain value, not arithmetic on others."""
    if not is_length:
        return PLAIN_NUMBER.fullmatch(text) is not None
    try:
        parse_length(text, style.unit)
    except LengthError:
        return False
    return True


def stepped(text: str, dim: Dim, up: bool, style: Style) -> str:
    """The text of a dim one step up or down, on the grid of steps. Raises NotTaken for arithmetic.

    A length that was written with a unit keeps the job's, so that it stays right if the job's unit is changed.
    """
    if not can_step(text, dim.is_length, style):
        raise NotTaken(f"{dim.name} is worked out ({text}): write a plain value to move it by steps")
    if not dim.is_length:
        value = float(text) + (1 if up else -1)
        return f"{value:g}"
    steps = parse_length(text, style.unit) / style.step_mm
    onto = math.floor(steps + NEARLY) + 1 if up else math.ceil(steps - NEARLY) - 1
    moved = onto * style.step_mm
    return style.length(moved) if HAS_UNIT.search(text) else style.bare(moved)


def step_in_words(is_length: bool, style: Style) -> str:
    """What one step is.

    >>> step_in_words(True, Style.inch()), step_in_words(True, Style.metric()), step_in_words(False, Style.inch())
    ('1/16"', '0.5 mm', '1')
    """
    return style.length(style.step_mm) if is_length else "1"
