"""How far each step of making strays: defaults with their basis, to be replaced by what the shop has measured."""

from __future__ import annotations

import math
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass, fields, replace
from functools import cache
from pathlib import Path

from fitwright.errors import FitwrightError

DATA = Path(__file__).parent / "data"
UNITS = {"mm": 1.0, "deg": math.radians(1.0)}


class SpreadError(FitwrightError, ValueError):
    """A spread that is not known, or is no length or angle of 0 or more."""


@dataclass(frozen=True)
class Spreads:
    """One standard deviation of each error of making [mm], angles [rad]; see `data/spreads.toml` for what each is.

    bend_angle_setup and saw_stop are shared by all that one setting makes, block_length by all places where a block of
    that length goes; the others are drawn anew for each bend, cut, stop, joint, foot, shelf or measurement.
    """

    bend_angle_setup: float
    bend_angle: float
    bend_position: float
    saw_stop: float
    saw_repeat: float
    tape: float
    trim: float
    saw_square: float
    block_length: float
    bench_stop: float
    square: float
    bench_floor: float
    joint_gap: float
    weld_shrinkage: float
    weld_angle: float
    bolt_play: float
    caster_height: float
    shelf_size: float
    survey: float
    match: float


@dataclass(frozen=True)
class SpreadNote:
    """What a spread is called on a sheet, its unit (mm or deg), and where its default comes from."""

    words: str
    unit: str
    basis: str


def usual_spreads() -> Spreads:
    """The defaults.

    >>> round(usual_spreads().block_length, 2)
    0.17
    """
    return Spreads(**{key: float(row["value"]) * UNITS[row["unit"]] for key, row in _rows().items()})


def with_spreads(changes: Mapping[str, float], spreads: Spreads | None = None) -> Spreads:
    """Spreads with some replaced [mm, rad].

    Raises SpreadError for a name that is not known, with the names that are, and for a value below 0 or not finite.

    >>> with_spreads({"survey": 2.0}).survey
    2.0
    """
    known = {field.name for field in fields(Spreads)}
    for name, value in changes.items():
        if name not in known:
            raise SpreadError(f"spread {name!r} is not known: use one of {', '.join(sorted(known))}")
        if not (value >= 0 and math.isfinite(value)):
            raise SpreadError(f"spread {name} is {value}: give one standard deviation, 0 or more")
    return replace(spreads or usual_spreads(), **changes)


@cache
def spread_notes() -> Mapping[str, SpreadNote]:
    """Words, unit and basis of every spread."""
    return {key: SpreadNote(row["words"], row["unit"], row["basis"]) for key, row in _rows().items()}


def _rows() -> dict[str, dict[str, str]]:
    return tomllib.loads((DATA / "spreads.toml").read_text(encoding="utf-8"))
