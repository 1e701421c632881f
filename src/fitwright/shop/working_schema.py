"""What the sections of a shop file about its work may hold: people and hours, times, boards, air, spreads."""

from __future__ import annotations

import datetime
import re
from typing import Annotated, Any

from pydantic import AfterValidator, BeforeValidator, Field, ValidationInfo
from pydantic_core import PydanticCustomError

from fitwright.errors import FitwrightError
from fitwright.shop.entry import Entry, Length, one_of, unit_of
from fitwright.shop.pricing_schema import Share
from fitwright.shop.working import DAYS, SPREADS, STEP_KINDS, Boards, ShopAir, StepTime, Working
from fitwright.stock.materials import WOODS
from fitwright.units import parse_angle, parse_length

TEMPERATURE = re.compile(r"(?P<degrees>[-+]?\d+(?:\.\d+)?)\s*°?\s*(?P<scale>[CF]?)", re.IGNORECASE)
COLDEST, HOTTEST = -20.0, 50.0
MOST_MINUTES = 10_000.0


def _temperature(value: Any, info: ValidationInfo) -> float:
    """Degrees Celsius; a bare number is Fahrenheit in an inch shop."""
    match = TEMPERATURE.fullmatch(str(value).strip())
    if match is None:
        raise PydanticCustomError("length", "{said} is not a temperature: write 68 F or 20 C", {"said": repr(value)})
    fahrenheit = (match["scale"].upper() or ("F" if unit_of(info) == "inch" else "C")) == "F"
    degrees = float(match["degrees"])
    celsius = (degrees - 32) * 5 / 9 if fahrenheit else degrees
    if not COLDEST <= celsius <= HOTTEST:
        told = f"{value} is no temperature of a shop: {COLDEST:g} to {HOTTEST:g} C, -4 to 122 F"
        raise PydanticCustomError("length", "{told}", {"told": told})
    return celsius


def _clock(value: Any) -> datetime.time:
    try:
        return datetime.time.fromisoformat(str(value).strip().zfill(5))
    except ValueError:
        raise PydanticCustomError(
            "length", "{said} is not a time of day: write '08:00'", {"said": repr(value)}
        ) from None


def _spreads(values: dict[str, Any], info: ValidationInfo) -> dict[str, float]:
    return {name: _spread(name, value, info) for name, value in values.items()}


def _spread(name: str, value: Any, info: ValidationInfo) -> float:
    """One standard deviation: an angle in degrees for some errors, a length for the others."""
    try:
        found = parse_angle(value) if SPREADS[name] == "deg" else parse_length(value, unit_of(info))
    except FitwrightError as wrong:
        raise PydanticCustomError("length", "{told}", {"told": f"{name}: {wrong}"}) from None
    if not 0 <= found <= 100:
        raise PydanticCustomError("length", "{told}", {"told": f"{name}: {value}: 0 or more belongs here"})
    return float(found)


Usable = Annotated[Share, Field(ge=0.3)]
Minutes = Annotated[float, Field(ge=0, le=MOST_MINUTES)]
Temperature = Annotated[float, BeforeValidator(_temperature)]
Kind = Annotated[str, one_of(STEP_KINDS)]
Wood = Annotated[str, one_of(WOODS)]
Day = Annotated[str, one_of(DAYS)]
SpreadName = Annotated[str, one_of(tuple(SPREADS))]


class WorkEntry(Entry):
    """Who works, and when."""

    people: Annotated[int, Field(ge=1, le=2)] = 1
    hours: Annotated[float, Field(ge=0.5, le=16)] = 8.0
    opens: Annotated[datetime.time, BeforeValidator(_clock)] = datetime.time(8, 0)
    days: Annotated[list[Day], Field(min_length=1)] = Field(default_factory=lambda: list(DAYS[:5]))
    off: list[datetime.date] = Field(default_factory=list)


class TimeEntry(Entry):
    """Minutes of one kind of step; what is left out is as usual."""

    start: Minutes | None = None
    setting: Minutes | None = None
    each: Minutes | None = None


class BoardsEntry(Entry):
    """What of a board is of use."""

    end_checks: Length = 0.0
    usable: dict[Wood, Usable] = Field(default_factory=dict)


class AirEntry(Entry):
    """The air in the shop."""

    temperature: Temperature
    humidity: Share


Times = dict[Kind, TimeEntry]
SpreadsByName = Annotated[dict[SpreadName, Any], AfterValidator(_spreads)]


def working_of(held: dict[str, Any]) -> Working:
    """From the sections of a file that has been checked."""
    work, boards, air = held["work"], held["boards"], held["air"]
    return Working(
        people=work["people"],
        hours=work["hours"],
        opens=work["opens"],
        weekdays=tuple(sorted({DAYS.index(day) for day in work["days"]})),
        off=tuple(work["off"]),
        times={kind: StepTime(**minutes) for kind, minutes in held["times"].items()},
        boards=Boards(boards["end_checks"], {wood: float(share) for wood, share in boards["usable"].items()}),
        spreads=held["spreads"],
        air=None if air is None else ShopAir(air["temperature"], float(air["humidity"]) * 100),
    )
