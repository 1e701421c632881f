"""Whether a record can be kept: each of its values within what it can be."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from datetime import date
from decimal import Decimal
from typing import Any

from fitwright.shop.records.errors import CannotKeep
from fitwright.shop.records.model import STATES, Record, values_of

LONGEST_TEXT = 400
LONGEST_MM = 100_000.0
DEAREST = Decimal(10_000_000)
MOST = 100_000
FIRST_DAY, LAST_DAY = date(1900, 1, 1), date(2999, 12, 31)
LARGEST_ANGLE = 400.0

Rule = tuple[Callable[[Any], bool], str]
ANGLE: Rule = (lambda v: 0 < v <= LARGEST_ANGLE, f"more than 0° and at most {LARGEST_ANGLE:.0f}°")
LENGTH: Rule = (lambda v: 0 < v <= LONGEST_MM, f"more than 0 and at most {LONGEST_MM:.0f} mm")
NAMED: Rule = (lambda v: bool(v.strip()), "some word")
RULES: dict[str, Rule] = {
    **dict.fromkeys(("asked_deg", "got_deg"), ANGLE),
    **dict.fromkeys(("length", "blank", "leg_start", "leg_end", "radius"), LENGTH),
    "mark": (lambda v: abs(v) <= LONGEST_MM, f"at most {LONGEST_MM:.0f} mm"),
    **dict.fromkeys(("die", "section", "label", "job", "of", "what", "step_kind", "currency"), NAMED),
    "count": (lambda v: 0 <= v <= MOST, f"0 to {MOST}"),
    "people": (lambda v: 1 <= v <= 50, "1 to 50"),
    **dict.fromkeys(("price", "cost"), (lambda v: 0 <= v <= DEAREST, f"0 to {DEAREST}")),
    "hours": (lambda v: 0 < v <= 1000, "more than 0 and at most 1000"),
    "usual_hours": (lambda v: 0 < v <= 1000, "more than 0 and at most 1000"),
    "precision": (lambda v: 0 <= v <= 1000, "0 to 1000"),
    "unit": (lambda v: v in ("mm", "deg"), "mm or deg"),
    "state": (lambda v: v in STATES, ", ".join(STATES)),
    "day": (lambda v: FIRST_DAY <= v <= LAST_DAY, f"{FIRST_DAY} to {LAST_DAY}"),
}
CENTS = 4
"""Decimal places that money is kept to."""


def check(record: Record) -> None:
    """Raises CannotKeep with everything that is wrong with the record."""
    wrong = list(problems(values_of(record)))
    if wrong:
        raise CannotKeep("; ".join(wrong))


def problems(values: dict[str, object]) -> Iterator[str]:
    """What is wrong with the values of a record, by name."""
    for name, value in values.items():
        if value is None:
            continue
        said = _problem(name, value)
        if said:
            yield said


def _problem(name: str, value: object) -> str:
    word = name.replace("_deg", "").replace("_", " ")
    if isinstance(value, str) and (len(value) > LONGEST_TEXT or "\x00" in value):
        return f"{word} is longer than {LONGEST_TEXT} letters" if "\x00" not in value else f"{word} has a zero byte"
    if isinstance(value, float) and not math.isfinite(value):
        return f"{word} is {value}: give a number"
    if isinstance(value, Decimal) and (not value.is_finite() or -int(value.as_tuple().exponent) > CENTS):
        return f"{word} is {value}: give money with at most {CENTS} places"
    rule = RULES.get(name)
    return f"{word} is {value if value != '' else 'empty'}: give {rule[1]}" if rule and not rule[0](value) else ""
