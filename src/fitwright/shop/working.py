"""How the shop works: who and when, how quickly and how exactly, in what air, and what of a board is of use."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date, time

STEP_KINDS = (
    *("buy", "saw", "trial", "bend", "trim", "cope", "set up", "tack", "weld", "grind", "drill", "timber", "glue"),
    *("sand", "screw", "clean", "prime", "paint", "oil", "send", "assemble", "deliver"),
)
"""Kinds of steps of the build that times can be given for."""

SPREADS = {
    "bend_angle_setup": "deg",
    "bend_angle": "deg",
    "bend_position": "mm",
    "saw_stop": "mm",
    "saw_repeat": "mm",
    "tape": "mm",
    "trim": "mm",
    "saw_square": "deg",
    "block_length": "mm",
    "bench_stop": "mm",
    "square": "deg",
    "bench_floor": "mm",
    "joint_gap": "mm",
    "weld_shrinkage": "mm",
    "weld_angle": "deg",
    "bolt_play": "mm",
    "caster_height": "mm",
    "shelf_size": "mm",
    "survey": "mm",
    "match": "deg",
}
"""Errors of making that a spread can be given for, and whether it is a length or an angle."""

DAYS = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")


@dataclass(frozen=True)
class StepTime:
    """Minutes of one kind of step: once, for each setting, for each thing; None where the usual holds."""

    start: float | None = None
    setting: float | None = None
    each: float | None = None


@dataclass(frozen=True)
class Boards:
    """What of the timber bought is of use.

    end_checks: cut off each end of a board [mm]; usable: fraction of the boards, by kind of wood, once knots are out.
    """

    end_checks: float = 0.0
    usable: Mapping[str, float] = field(default_factory=dict)


@dataclass(frozen=True)
class ShopAir:
    """Air in the shop while paint dries: temperature [C] and relative humidity [%]."""

    temperature: float
    humidity: float


@dataclass(frozen=True)
class Working:
    """How one shop works.

    hours: a day, without breaks; weekdays: 0 is Monday; off: days on which nobody works. times: by kind of step.
    spreads: one standard deviation by error of making [mm, rad], where the shop knows its own. air: None for the usual.
    """

    people: int = 1
    hours: float = 8.0
    opens: time = time(8, 0)
    weekdays: tuple[int, ...] = (0, 1, 2, 3, 4)
    off: tuple[date, ...] = ()
    times: Mapping[str, StepTime] = field(default_factory=dict)
    boards: Boards = Boards()
    spreads: Mapping[str, float] = field(default_factory=dict)
    air: ShopAir | None = None
