"""A trial bend as the maker tells of it, read against the shop's dies."""

from __future__ import annotations

import math
from dataclasses import dataclass
from datetime import date

from fitwright.errors import FitwrightError
from fitwright.shop.learning.pieces import TrialPiece, offset, taken_up
from fitwright.shop.model import Die, Shop
from fitwright.shop.records.model import Trial
from fitwright.stock import Stock, parse_stock
from fitwright.units import parse_angle, parse_length

# An angle that came out farther than this from the one set is a slip of the pen.
FARTHEST = math.radians(60)
# So far a take-up may be from the arc (common practice: a twentieth is usual).
LEAST_TAKE_UP, MOST_TAKE_UP = 0.8, 1.2
# A mark is set to the die's edge, its middle or the end of its grip: no farther from the bend (common practice).
MARK_RADII = 2.0
ROUNDED = math.radians(1e-6)


class WrongTrial(FitwrightError, ValueError):
    """A trial that cannot be: the die does not take the stock, or the numbers contradict each other."""


@dataclass(frozen=True)
class Try:
    """What the maker says, as written: die, stock, angle set, angles got, heat; blank, legs and mark if measured."""

    die: str
    stock: str
    asked: str
    got: tuple[str, ...]
    heat: str = ""
    blank: str = ""
    legs: str = ""
    mark: str = ""
    note: str = ""


def trials_of(said: Try, shop: Shop, day: date) -> tuple[Die, Stock, list[Trial]]:
    """The die, the stock and the records to keep, one an angle that was got; lengths without a unit take the shop's.

    Raises WrongTrial, and the errors of lengths, angles and stock that cannot be read.
    """
    tube = parse_stock(said.stock, unit=shop.unit)
    die = _die(said.die, tube, shop)
    asked = parse_angle(said.asked)
    found = [_checked(asked, parse_angle(text)) for text in said.got]
    if asked > die.max_angle + ROUNDED:
        raise WrongTrial(
            f"set to {_deg(asked):g}°: {die.name} turns to {_deg(die.max_angle):g}° (max_angle of the die)"
        )
    start, end = _legs(said.legs, shop)
    if said.legs and len(found) > 1:
        raise WrongTrial("legs go with one bend: give each measured piece by itself")
    blank = parse_length(said.blank, shop.unit) if said.blank.strip() else None
    mark = parse_length(said.mark, shop.unit) if said.mark.strip() else None
    if (blank is not None or mark is not None) and start is None:
        raise WrongTrial("a blank or a mark goes with legs: give both, from each end to the corner of the centrelines")
    rows = [
        Trial(day, die.name, tube.label, _deg(asked), _deg(got), tube.material.name, said.heat.strip(), die.radius,
              blank, start, end, mark, note=said.note.strip())
        for got in found
    ]  # fmt: skip
    for row in rows:
        _plausible(row, die)
    return die, tube, rows


def _plausible(trial: Trial, die: Die) -> None:
    """A take-up far from the arc is a slip of the tape, and so is a mark far from the bend. Raises WrongTrial."""
    angle = math.radians(trial.got_deg)
    piece = TrialPiece(trial.radius or 0.0, angle, trial.blank, trial.leg_start, trial.leg_end, trial.mark)
    used, away = taken_up(piece), offset(piece)
    arc = (trial.radius or 0.0) * angle
    if used is not None and not LEAST_TAKE_UP <= used / arc <= MOST_TAKE_UP:
        raise WrongTrial(
            f"by blank and legs the bend takes {used:.1f} mm and its arc is {arc:.1f}: measure again, "
            "the legs from each end to the corner of the centrelines"
        )
    reach = MARK_RADII * die.radius + die.grip
    if away is not None and abs(away) > reach:
        raise WrongTrial(
            f"by legs and mark the mark was {abs(away):.1f} mm {'past' if away > 0 else 'short of'} where the bend "
            f"begins, and that is within {reach:.1f} mm: measure the mark again, from the end that you started from"
        )


def _die(name: str, tube: Stock, shop: Shop) -> Die:
    die = next((one for one in shop.dies if one.name == " ".join(name.split())), None)
    fitting = ", ".join(one.name for one in shop.dies_for(tube.section) if not one.rolls) or "none"
    if die is None:
        # a metric maker without a shop file is read in inches: the size as it was read shows it, this says what to do
        told = f"; a bare number is in the shop's {shop.unit}: give sizes their unit, or --shop"
        hint = told if fitting == "none" else ""
        raise WrongTrial(f"there is no die {name!r} in the shop file: those that take {tube.label} are {fitting}{hint}")
    if die.rolls or not die.fits(tube.section):
        said = "are rolls, which have no springback to set" if die.rolls else f"does not take {tube.label}"
        raise WrongTrial(f"{die.name} {said}: those that do are {fitting}")
    return die


def _checked(asked: float, got: float) -> float:
    if not (got > 0 and asked > 0 and abs(asked - got) < FARTHEST):
        raise WrongTrial(
            f"set to {_deg(asked):g}° and got {_deg(got):g}°: give both as the angle that the tube turns, not the one "
            "between its legs"
        )
    return got


def _legs(text: str, shop: Shop) -> tuple[float | None, float | None]:
    if not text.strip():
        return None, None
    parts = [part for part in text.split(",") if part.strip()]
    if len(parts) != 2:
        raise WrongTrial(f"{text!r} is not two legs: give both with a comma between, such as 11, 10 1/4")
    return parse_length(parts[0], shop.unit), parse_length(parts[1], shop.unit)


def _deg(rad: float) -> float:
    return round(math.degrees(rad), 9)
