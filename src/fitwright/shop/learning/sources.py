"""Which error of making a reading tells of, and what the shop's readings make of it."""

from __future__ import annotations

import math
import re
from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from fitwright.shop.learning.spreads import SpreadLearnt, spread_from
from fitwright.shop.records.model import Measured

# How a reading is named, the errors that make it (as the virtual builds name them), its unit. A reading tells only of
# errors that it shows directly; what comes of many together, as the height of a foot, is for truing.
TELLS: tuple[tuple[re.Pattern[str], tuple[str, ...], str], ...] = (
    (re.compile(r"bend \d+ of .+"), ("bend_angle_setup", "bend_angle"), "deg"),
    (re.compile(r"cut length of .+"), ("saw_stop", "saw_repeat"), "mm"),
    (re.compile(r"leg \d+ of .+"), ("trim",), "mm"),
    (re.compile(r"gap at .+"), ("joint_gap",), "mm"),
)
UNITS = {"mm": 1.0, "deg": math.radians(1.0)}


@dataclass(frozen=True)
class ErrorsRead:
    """Readings that tell of the same errors: names of these, how far each reading was off, how precise [mm, rad]."""

    names: tuple[str, ...]
    off: tuple[float, ...]
    precisions: tuple[float, ...]


def errors_read(readings: Sequence[Measured]) -> tuple[ErrorsRead, ...]:
    """Readings by the errors that they tell of; those that tell of none are left out."""
    seen: dict[tuple[str, ...], list[Measured]] = defaultdict(list)
    for reading in readings:
        for pattern, names, unit in TELLS:
            if reading.unit == unit and pattern.fullmatch(reading.of):
                seen[names].append(reading)
    return tuple(
        ErrorsRead(
            names,
            tuple((one.got - one.asked) * UNITS[one.unit] for one in some),
            tuple(one.precision * UNITS[one.unit] for one in some),
        )
        for names, some in seen.items()
    )


def spreads_learnt(read: Iterable[ErrorsRead], usual: Mapping[str, float]) -> dict[str, SpreadLearnt]:
    """The spread of each error that readings tell of [mm, rad]; usual: default spreads by name.

    Errors that are read together keep their proportion: one number cannot tell the set-up from the bend.
    Source: `spread_from`.
    """
    found = {}
    for one in read:
        together = math.hypot(*(usual[name] for name in one.names))
        spread = spread_from(one.off, one.precisions, together)
        for name in one.names:
            part = usual[name] / together
            found[name] = SpreadLearnt(
                spread.value * part, spread.low * part, spread.high * part, spread.factor, spread.count
            )
    return found
